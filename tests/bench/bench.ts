import { spawn } from 'node:child_process';
import { loadLibrary } from '../../src/lib/flow/load.ts';
import { printFinding } from '../../src/lib/flow/finding.ts';
import type { Library } from '../../src/lib/flow/library.ts';
import { timeRows } from '../../src/tools/bench-times.ts';
import { readFlowFiles } from '../../src/tools/flow-files.ts';
import { gateRows } from './gates.ts';
import { jobRows } from './jobs.ts';
import { optimumRows } from './optimum.ts';
import { takeDraw } from './random.ts';
import { printRows, type Row } from './row.ts';
import { shippedFlows, shippedRows } from './shipped.ts';
import { stageCheckRows } from './stage-check.ts';
import { storageRows } from './storage.ts';
import { twoFaultRows } from './two-faults.ts';

/**
 * Prints how good the advice and the stage check are, each figure with its goal. It takes some fifteen minutes; `--short`
 * takes one and serves the tests: it ends with code 1 where a goal is missed whose figure is the same on every machine.
 * `--draw N` takes other sets, faults and answers than those that the search was tuned on.
 */

const SHORT = '--short';
/** Runs the jobs alone and prints their rows as JSON: the half of the work that a second core does. */
const JOBS_ALONE = '--jobs-alone';
/** Only the rows of the stage check. */
const STAGES_ALONE = '--stages';

/** Only the rows of the storage. */
const STORAGE_ALONE = '--storage';

const DRAW = '--draw';

const root = process.cwd();

function openLibrary(): Library {
	const loaded = loadLibrary(readFlowFiles(root));
	if (loaded.ok) return loaded.library;
	console.error(loaded.findings.map(printFinding).join('\n\n'));
	process.exit(1);
}

const jobsAlone = (): Row[] => [...jobRows(false), ...twoFaultRows(false)];

/** The same on a second core. */
function jobsBeside(): Promise<Row[]> {
	const child = spawn(process.execPath, [...process.execArgv, ...process.argv.slice(1), JOBS_ALONE], {
		stdio: ['ignore', 'pipe', 'inherit']
	});
	let text = '';
	child.stdout.on('data', (piece: Buffer) => (text += piece.toString()));
	return new Promise((resolve, reject) => {
		child.on('error', reject);
		child.on('close', () => resolve(JSON.parse(text) as Row[]));
	});
}

async function allRows(): Promise<Row[]> {
	const library = openLibrary();
	const jobs = jobsBeside();
	const rest = [
		...optimumRows(false),
		...gateRows(false),
		...shippedRows(library, false),
		...(await stageCheckRows())
	];
	// Times come last, when the second core is free.
	const beside = await jobs;
	const times = await timeRows(library, shippedFlows(library), root);
	return [...beside, ...rest, ...times, ...(await storageAlone(library))];
}

/** On the first flow: any one will do. */
async function storageAlone(library: Library): Promise<Row[]> {
	const [flow] = shippedFlows(library);
	return flow ? storageRows(library, flow, root) : [];
}

const shortRows = (): Row[] => [...optimumRows(true), ...gateRows(true), ...shippedRows(openLibrary(), true)];

const place = process.argv.indexOf(DRAW);
if (place > 0) takeDraw(Number(process.argv[place + 1]));

if (process.argv.includes(JOBS_ALONE)) {
	console.log(JSON.stringify(jobsAlone()));
} else {
	const rows = process.argv.includes(SHORT)
		? shortRows()
		: process.argv.includes(STAGES_ALONE)
			? await stageCheckRows()
			: process.argv.includes(STORAGE_ALONE)
				? await storageAlone(openLibrary())
				: await allRows();
	console.log(printRows(rows));
	const missed = rows.filter(({ certain, met }) => certain && met === false);
	if (missed.length) console.error(`Missed: ${missed.map(({ id, what }) => `${id} ${what}`).join('; ')}.`);
	process.exitCode = missed.length ? 1 : 0;
}
