import { spawn } from 'node:child_process';
import { loadLibrary } from '../../src/lib/flow/load.ts';
import { printFinding } from '../../src/lib/flow/finding.ts';
import type { Library } from '../../src/lib/flow/library.ts';
import { timeRows } from '../../src/tools/bench-times.ts';
import { readFlowFiles } from '../../src/tools/flow-files.ts';
import { decisionRow } from './decision-time.ts';
import { gateRows } from './gates.ts';
import { jobRows } from './jobs.ts';
import { optimumRows } from './optimum.ts';
import { takeDraw } from './random.ts';
import { printRows, type Row } from './row.ts';
import { orderRowsAlone, shippedFlows, shippedRows } from './shipped.ts';
import { FAULTS, FEW_FAULTS, stageCheckRows } from './stage-check.ts';
import { storageRows } from './storage.ts';
import { twoFaultRows } from './two-faults.ts';

/**
 * Prints how good the advice and the stage check are, each figure with its goal. `--short` takes a minute and serves the
 * tests: it ends with code 1 where a goal is missed whose figure is the same on every machine.
 * `--flows [FLOW...]` plays the shipped flows alone, on more jobs.
 * `--draw N` takes other sets, faults and answers than those that the search was tuned on.
 */

const SHORT = '--short';
/** Prints the rows of synthetic jobs and of the stage check as JSON: the half of the work that a second core does. */
const BESIDE = '--beside';
/** Only the rows of the stage check, on many more faults. */
const STAGES_ALONE = '--stages';

/** Only the rows of the storage, which are no part of the whole bench: it lasts for minutes. */
const STORAGE_ALONE = '--storage';

/** Only the shipped flows against the orders written by hand, on more jobs: all flows, or those that are named after it. */
const FLOWS_ALONE = '--flows';

const DRAW = '--draw';

const root = process.cwd();

function openLibrary(): Library {
	const loaded = loadLibrary(readFlowFiles(root));
	if (loaded.ok) return loaded.library;
	console.error(loaded.findings.map(printFinding).join('\n\n'));
	process.exit(1);
}

const besideRows = async (): Promise<Row[]> => [
	...jobRows(false),
	...twoFaultRows(false),
	...(await stageCheckRows(FEW_FAULTS))
];

/** The same on a second core. */
function beside(): Promise<Row[]> {
	const child = spawn(process.execPath, [...process.execArgv, ...process.argv.slice(1), BESIDE], {
		stdio: ['ignore', 'pipe', 'inherit']
	});
	let text = '';
	child.stdout.on('data', (piece: Buffer) => (text += piece.toString()));
	return new Promise((resolve, reject) => {
		child.on('error', reject);
		// What the circuit simulator has to say stands before it.
		child.on('close', () => resolve(JSON.parse(text.trim().split('\n').at(-1) ?? '') as Row[]));
	});
}

async function allRows(): Promise<Row[]> {
	const library = openLibrary();
	const half = beside();
	const rest = [...optimumRows(false), ...gateRows(false), ...shippedRows(library, false)];
	// Times come last, when the second core is free.
	const other = await half;
	const times = [decisionRow(), ...(await timeRows(library, shippedFlows(library), root))];
	return [...other, ...rest, ...times];
}

/** On the first flow: any one will do. */
async function storageAlone(library: Library): Promise<Row[]> {
	const [flow] = shippedFlows(library);
	return flow ? storageRows(library, flow, root) : [];
}

const shortRows = (): Row[] => [...optimumRows(true), ...gateRows(true), ...shippedRows(openLibrary(), true)];

const place = process.argv.indexOf(DRAW);
if (place > 0) takeDraw(Number(process.argv[place + 1]));

const named = (option: string) => {
	const rest = process.argv.slice(process.argv.indexOf(option) + 1);
	const end = rest.findIndex((word) => word.startsWith('--'));
	return end < 0 ? rest : rest.slice(0, end);
};

/** The rows of the run that is asked for; the whole bench where none is. */
async function askedRows(): Promise<Row[]> {
	const asked = (option: string) => process.argv.includes(option);
	if (asked(SHORT)) return shortRows();
	if (asked(STAGES_ALONE)) return stageCheckRows(FAULTS);
	if (asked(STORAGE_ALONE)) return storageAlone(openLibrary());
	if (asked(FLOWS_ALONE)) return orderRowsAlone(openLibrary(), named(FLOWS_ALONE));
	return allRows();
}

if (process.argv.includes(BESIDE)) {
	console.log(JSON.stringify(await besideRows()));
} else {
	const rows = await askedRows();
	console.log(printRows(rows));
	const missed = rows.filter(({ certain, met }) => certain && met === false);
	if (missed.length) console.error(`Missed: ${missed.map(({ id, what }) => `${id} ${what}`).join('; ')}.`);
	process.exitCode = missed.length ? 1 : 0;
}
