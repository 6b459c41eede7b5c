import { expect, test } from 'vitest';
import type { EventData } from '../../../src/lib/job/events.ts';
import { replay } from '../../../src/lib/job/replay.ts';
import { markViews, marksAt, sheetsOf } from '../../../src/lib/ui/diagram/sheet-view.ts';
import { intake, Log } from '../job/log.ts';
import { tiny } from '../job/tiny.ts';

const hash = (letter: string) => `sha256:${letter.repeat(64)}`;
const picture = (letter: string, kind: 'diagram' | 'chassis' | 'step'): EventData['pictured'] => ({
	picture: hash(letter),
	of: { kind },
	width: 1600,
	height: 1000,
	bytes: 1000
});

function marked(): Log {
	const log = new Log();
	log.add('started', {});
	log.add('intake', intake());
	log.add('pictured', picture('c', 'chassis'));
	log.add('pictured', picture('d', 'diagram'));
	log.add('pictured', picture('e', 'step'));
	log.add('part-listed', { part: 'own-c12', name: 'C12', kind: 'paper' });
	log.add('marked', { sheet: hash('d'), mark: 'm1', x: 0.2, y: 0.2, part: 'own-c12' });
	log.add('marked', { sheet: hash('c'), mark: 'm2', x: 0.4, y: 0.4, point: 'output.grid' });
	return log;
}
const play = (log: Log) => replay(log.events, { snapshots: {} });
const shown = (log: Log, letter: string) =>
	markViews(play(log), tiny.plans['tiny'], hash(letter)).map(({ name, state, look }) => [
		name,
		state,
		look.letter
	]);

test('diagrams come before the chassis; a picture of a step is no sheet', () => {
	expect(sheetsOf(play(marked())).map(({ title }) => title)).toEqual(['Diagram 1', 'Chassis 1']);
});

test('the mark of a part follows the part, that of a point keeps its name', () => {
	const log = marked();
	expect(shown(log, 'd')).toEqual([['C12', 'untouched', 'U']]);
	log.add('part-tested', { part: 'own-c12', listed: 'own-c12', result: 'bad' });
	expect(shown(log, 'd')).toEqual([['C12', 'tested bad', 'B']]);
	expect(shown(log, 'c')).toEqual([['Grid of the output valve', 'test point', 'T']]);
});

test('a part taken off the list leaves a mark that says so', () => {
	const log = marked();
	log.add('part-listed', { part: 'own-c12', name: 'C12', kind: 'paper', off: true });
	expect(shown(log, 'd')).toEqual([['Part off the list', 'note', '!']]);
});

test('a step finds its point on the sheets that are there; a picture taken back takes its marks out of sight', () => {
	const log = marked();
	expect(marksAt(play(log), 'output.grid').map(({ sheet }) => sheet.title)).toEqual(['Chassis 1']);
	log.undo(log.events.find(({ kind }) => kind === 'pictured')?.id ?? '');
	expect(marksAt(play(log), 'output.grid')).toEqual([]);
});
