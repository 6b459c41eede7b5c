import { describe, expect, test } from 'vitest';
import { calculationIds } from '../../../src/lib/calculations/index.ts';
import { main } from '../../../src/tools/calculate.ts';

function run(...argv: string[]) {
	const out: string[] = [];
	const err: string[] = [];
	const code = main(argv, { out: (text) => out.push(text), err: (text) => err.push(text) });
	return { code, out: out.join('\n'), err: err.join('\n') };
}

describe('the calculate command', () => {
	test('60 V across 1.2 kohm of 4 W prints one JSON object with figures, verdict, sentence and sources', () => {
		const { code, out, err } = run('resistor-drop', '{"R_ohm":"1k2","V":60,"P_rated_W":4}');
		expect([code, err]).toEqual([0, '']);
		const answer = JSON.parse(out) as Record<string, unknown>;
		expect(answer).toMatchObject({
			id: 'resistor-drop',
			outputs: { I_A: 0.05, P_W: 3, load_pct: 75 },
			verdict: 'warm'
		});
		expect(answer['sentence']).toContain('3 W');
		expect(answer['sources']).toContainEqual(expect.objectContaining({ kind: 'published' }));
	});

	test('the list names every calculation with units and ranges', () => {
		const { code, out } = run('--list');
		expect(code).toBe(0);
		for (const id of calculationIds) expect(out).toContain(`${id}: `);
		expect(out).toContain('R_ohm: resistor, measured cold and unplugged, in Ω, 1 Ω to 22 MΩ');
	});

	test.each([
		['an unknown id', ['resistor-drp', '{}'], 'Did you mean resistor-drop'],
		['text that is no JSON', ['resistor-drop', '{R_ohm}'], 'not readable as JSON'],
		['a list for an object', ['resistor-drop', '[1]'], 'no JSON object'],
		[
			'a value out of range',
			['resistor-drop', '{"R_ohm":0.5,"V":1}'],
			'R_ohm (resistor, measured cold and unplugged) is 0.5 Ω'
		],
		['no inputs', ['resistor-drop'], 'Missing: R_ohm'],
		['no id', [], 'usage:'],
		['a word too many', ['resistor-drop', '{}', 'x'], 'usage:']
	])('%s ends with 2 and says what is wrong', (_, argv, part) => {
		const { code, out, err } = run(...argv);
		expect([code, out]).toEqual([2, '']);
		expect(err).toContain(part);
	});
});
