import { Simulation } from 'eecircuit-engine';

/** One vector of a run: real values, or for an AC sweep the absolute values. */
export type Vector = readonly number[];

/** What a run gave, by the name of the vector in small letters: `v(grid)`, `time`, `frequency`. */
export type Run = ReadonlyMap<string, Vector>;

/** An independent circuit simulator: ngspice as WebAssembly, by eecircuit-engine (MIT; ngspice under its own licences). */
export interface Spice {
	run(netlist: readonly string[]): Promise<Run>;
}

/** Forty circuits take a second or two on an idle machine; on a busy one they may take their time, ms. */
export const PATIENCE = 120_000;

const modulus = ({ real, img }: { real: number; img: number }): number => Math.hypot(real, img);

/** Starts the simulator, which takes a second or two; a file of tests shares one. */
export async function startSpice(): Promise<Spice> {
	const simulation = new Simulation();
	await simulation.start();
	return {
		async run(netlist) {
			simulation.setNetList(['circuit', ...netlist, '.end'].join('\n'));
			const result = await simulation.runSim();
			// A bad line does not throw: it leaves a message, or a plot of constants.
			const errors = simulation.getError().filter((line) => !/^Note/i.test(line));
			if (errors.length > 0) throw new Error(`${errors.join('; ')} in\n${netlist.join('\n')}`);
			if (result.variableNames.includes('planck'))
				throw new Error(`nothing was run in\n${netlist.join('\n')}`);
			const data: (readonly [string, Vector])[] =
				result.dataType === 'complex'
					? result.data.map(({ name, values }) => [name.toLowerCase(), values.map(modulus)])
					: result.data.map(({ name, values }) => [name.toLowerCase(), values]);
			return new Map(data);
		}
	};
}

/** The last value of a vector: the only one of an operating point. */
export function valueOf(run: Run, name: string): number {
	const value = run.get(name)?.at(-1);
	if (value === undefined) throw new Error(`no ${name} among ${[...run.keys()].join(', ')}`);
	return value;
}
