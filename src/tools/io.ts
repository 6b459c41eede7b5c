/** Where a command writes: the real streams, or a test's own. */
export interface Io {
	out(text: string): void;
	err(text: string): void;
}

export const processIo: Io = {
	out: (line) => void process.stdout.write(`${line}\n`),
	err: (line) => void process.stderr.write(`${line}\n`)
};
