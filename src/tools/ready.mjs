// Makes a fresh clone ready: the right Node, and the packages of the lockfile. Node built-ins only, since
// nothing is installed yet when it runs.
import { spawnSync } from 'node:child_process';
import { existsSync, realpathSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const OLDEST_NODE = { major: 20, minor: 19 };

/**
 * What keeps this version of Node from running the project, or nothing.
 *
 * @param {string} version as in `process.versions.node`: "20.19.0"
 */
export function nodeProblem(version) {
	const [major = 0, minor = 0] = version.split('.').map(Number);
	const enough = major > OLDEST_NODE.major || (major === OLDEST_NODE.major && minor >= OLDEST_NODE.minor);
	if (enough) return undefined;
	return `Node ${version} is too old. Install Node ${OLDEST_NODE.major}.${OLDEST_NODE.minor} or newer, then try again.`;
}

/**
 * Whether the packages have to be installed: never done, or the lockfile has changed since.
 *
 * @param {number} lockfile when the lockfile was written, in ms
 * @param {number | undefined} installed when the last installation ended, in ms
 */
export const installNeeded = (lockfile, installed) => installed === undefined || installed < lockfile;

/** @param {string} file */
const writtenAt = (file) => (existsSync(file) ? statSync(file).mtimeMs : undefined);

/** @param {string} root */
function install(root) {
	console.log('Installing the packages of package-lock.json ...');
	const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';
	const run = spawnSync(npm, ['ci', '--include=dev', '--no-audit', '--no-fund'], {
		cwd: root,
		stdio: 'inherit',
		shell: process.platform === 'win32'
	});
	if (run.status !== 0) console.error('npm ci did not finish: its own words stand above.');
	return run.status ?? 1;
}

function main() {
	const root = join(dirname(fileURLToPath(import.meta.url)), '../..');
	const problem = nodeProblem(process.versions.node);
	if (problem) {
		console.error(problem);
		return 1;
	}
	const lockfile = writtenAt(join(root, 'package-lock.json'));
	if (lockfile === undefined) {
		console.error('package-lock.json is missing. Restore it with: git checkout package-lock.json');
		return 1;
	}
	const installed = writtenAt(join(root, 'node_modules/.package-lock.json'));
	return installNeeded(lockfile, installed) ? install(root) : 0;
}

const started = process.argv[1];
if (started && realpathSync(started) === fileURLToPath(import.meta.url)) process.exitCode = main();
