import { loadLibrary } from '../../src/lib/flow/load.ts';
import { printFinding } from '../../src/lib/flow/finding.ts';
import { timeRows } from '../../src/tools/bench-times.ts';
import { readFlowFiles } from '../../src/tools/flow-files.ts';
import { gateRows } from './gates.ts';
import { jobRows } from './jobs.ts';
import { optimumRows } from './optimum.ts';
import { printRows, type Row } from './row.ts';
import { shippedFlows, shippedRows } from './shipped.ts';
import { twoFaultRows } from './two-faults.ts';

/**
 * Prints how good the advice is, each figure with its goal. `--short` takes a minute and serves the tests: it ends with
 * code 1 where a goal is missed whose figure is the same on every machine.
 */

const short = process.argv.includes('--short');
const root = process.cwd();
const loaded = loadLibrary(readFlowFiles(root));
if (!loaded.ok) {
	console.error(loaded.findings.map(printFinding).join('\n\n'));
	process.exit(1);
}
const { library } = loaded;

const parts: [name: string, rows: () => Row[] | Promise<Row[]>][] = [
	['optimum', () => optimumRows(short)],
	['jobs', () => (short ? [] : jobRows(false))],
	['two faults', () => (short ? [] : twoFaultRows(false))],
	['gates', () => gateRows(short)],
	['shipped flows', () => shippedRows(library, short)],
	['times', () => (short ? [] : timeRows(library, shippedFlows(library), root))]
];

const rows: Row[] = [];
for (const [name, work] of parts) {
	const begun = performance.now();
	rows.push(...(await work()));
	console.error(`${name}: ${((performance.now() - begun) / 1000).toFixed(0)} s`);
}
console.log(printRows(rows));
const missed = rows.filter(({ certain, met }) => certain && met === false);
if (missed.length) console.error(`Missed: ${missed.map(({ id, what }) => `${id} ${what}`).join('; ')}.`);
process.exitCode = missed.length ? 1 : 0;
