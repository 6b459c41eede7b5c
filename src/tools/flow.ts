import { pathToFileURL } from 'node:url';
import { draw, readDraw, type DrawQuestion } from './draw.ts';
import { check } from './flow-check.ts';
import { draft } from './flow-draft.ts';
import { NEW_USAGE, newFlow } from './flow-new.ts';
import { play } from './flow-play.ts';
import { guide } from './guide.ts';
import { processIo, type Io } from './io.ts';
import { openLibrary } from './library.ts';
import { writeSchemas } from './schemas.ts';

const USAGE = `usage: npm run -s flow -- check [FILE...] [--json]
       ${NEW_USAGE}
       npm run -s flow -- play CASE.yaml
       npm run -s flow -- draw FLOW [--plan PLAN] [--outline]
       npm run -s flow -- draft JOBFILE
       npm run -s flow -- schemas     writes static/schemas/ anew
       npm run -s flow -- guide       writes the list of wanted flows in flows/README.md anew`;

function drawFlow(root: string, question: DrawQuestion, io: Io): number | Promise<number> {
	const library = openLibrary(root, io);
	return library ? draw(library, question, io) : 1;
}

/** Returns the exit code: 0, 1 for a library with errors, 2 for what was asked wrongly. */
export function main(argv: readonly string[], io: Io, root = process.cwd()): number | Promise<number> {
	const [command, ...args] = argv;
	const [file] = args;
	const alone = args.length === 0;
	const drawing = command === 'draw' ? readDraw(args) : undefined;
	if (drawing) return drawFlow(root, drawing, io);
	if (command === 'check') return check(root, args, io);
	if (command === 'new') return newFlow(root, args, io);
	if (command === 'play' && file !== undefined && args.length === 1) return play(root, file, io);
	if (command === 'draft' && file !== undefined && args.length === 1) return draft(root, file, io);
	if (command === 'schemas' && alone) return writeSchemas(root, io);
	if (command === 'guide' && alone) return guide(root, io);
	return (io.err(USAGE), 2);
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href)
	process.exitCode = await main(process.argv.slice(2), processIo);
