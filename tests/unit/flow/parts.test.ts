import { describe, expect, test } from 'vitest';
import {
	DUTIES,
	isCapacitor,
	PART_LOOKS,
	type Duty,
	type PartLook
} from '../../../src/lib/flow/part-terms.ts';
import { partsOf, verdictFor } from '../../../src/lib/flow/parts.ts';
import { placeSuspects } from '../../../src/lib/flow/resolve.ts';
import { shippedLibrary } from '../../library.ts';

const library = shippedLibrary();
const looks = Object.keys(PART_LOOKS) as PartLook[];
const duties = (Object.keys(DUTIES) as Duty[]).filter((duty) => DUTIES[duty].of === 'capacitor');
const verdict = (kind: PartLook, duty?: Duty) => verdictFor(library, kind, duty)?.verdict;

describe('change, measure or leave', () => {
	test.each(looks.filter(isCapacitor))('%s: every duty has a verdict with a reason and a source', (kind) => {
		for (const duty of [...duties, undefined]) {
			const row = verdictFor(library, kind, duty);
			expect(row, `${kind}, ${duty ?? 'no duty'}`).toBeDefined();
			expect(row?.reason.length).toBeGreaterThan(30);
		}
	});

	test('every other part has one too', () => {
		expect(looks.filter((kind) => verdictFor(library, kind, undefined) === undefined)).toEqual([]);
	});

	test('every source of a verdict is in the table of sources', () => {
		const bases = ['common practice', 'from memory'];
		const known = new Set([...Object.keys(library.sources), ...bases]);
		const named = Object.values(library.verdicts ?? {}).flatMap(({ source }) => source);
		expect(named.filter((source) => !known.has(source))).toEqual([]);
	});

	test('a paper coupler to the output grid is changed, mica in the IF can is left unless there are signs', () => {
		expect(verdict('paper', 'output-coupling')).toBe('change');
		expect(verdict('mica', 'if-can')).toBe('leave');
		expect(verdictFor(library, 'mica', 'if-can')?.reason).toContain('unless there are signs');
	});

	test('across the mains only class X, from mains to chassis only class Y, whatever kind it was', () => {
		for (const kind of looks.filter(isCapacitor)) {
			expect(verdictFor(library, kind, 'across-mains')?.fit).toBe('X');
			expect(verdictFor(library, kind, 'mains-chassis')?.fit).toBe('Y');
			expect(verdict(kind, 'across-mains')).not.toBe('leave');
			expect(verdict(kind, 'mains-chassis')).not.toBe('leave');
		}
	});

	test('an electrolytic reservoir is measured, a dried cathode by-pass is not worth it', () => {
		expect(verdict('electrolytic', 'reservoir')).toBe('measure');
		expect(verdict('electrolytic', 'cathode')).toBe('change');
	});

	test('no row of the table is out of reach', () => {
		const reached = new Set(
			looks.flatMap((kind) =>
				[undefined, ...(Object.keys(DUTIES) as Duty[])].map((duty) => verdictFor(library, kind, duty))
			)
		);
		const rows = Object.entries(library.verdicts ?? {});
		expect(rows.filter(([, row]) => !reached.has(row)).map(([id]) => id)).toEqual([]);
	});
});

describe('the parts that a set usually has', () => {
	test.each(Object.values(library.plans))(
		'$id: every part once, at a place of the plan, with its suspects',
		(plan) => {
			const parts = partsOf(library, plan);
			const placed = new Set(placeSuspects(library, undefined, plan).map(({ id }) => id));
			expect(new Set(parts.map(({ id }) => id)).size).toBe(parts.length);
			for (const { id, place, suspects } of parts) {
				expect(plan.stages[place] ?? plan.lines[place], id).toBeDefined();
				expect(
					suspects.filter((one) => !placed.has(one)),
					id
				).toEqual([]);
				expect(suspects, id).not.toEqual([]);
			}
		}
	);

	test('every capacitor and resistor that is a suspect is a part of the list', () => {
		const told = new Set(Object.values(library.parts ?? {}).flatMap(({ suspects }) => suspects));
		const wanted = Object.entries(library.suspects).filter(([, { kind }]) =>
			['paper-capacitor', 'electrolytic', 'mica-capacitor', 'resistor'].includes(kind ?? '')
		);
		// A noisy resistor is one of those that stand there already.
		expect(wanted.map(([id]) => id).filter((id) => !told.has(id))).toEqual(['noisy-res']);
	});

	test('the coupler of an AM/FM set: paper, to the output grid, with the ways in which it fails', () => {
		const plan = library.plans['am-fm-shared'];
		const coupler = plan && partsOf(library, plan).find(({ id }) => id === 'output-coupling');
		expect(coupler).toMatchObject({ kind: 'paper', duty: 'output-coupling', place: 'output' });
		expect(coupler?.suspects).toEqual(['cc-leak', 'cc-open', 'cc-low']);
	});

	test('what stands inside the FM unit and the IF cans is called hidden', () => {
		const plan = library.plans['am-fm-shared'];
		const hidden = plan ? partsOf(library, plan).filter(({ hidden: where }) => where) : [];
		expect(hidden.map(({ hidden: where }) => where)).toContain('inside the FM unit');
		expect(hidden.filter(({ duty }) => duty === 'if-can').length).toBeGreaterThan(3);
	});

	test('the plan tells values where it knows them', () => {
		const plan = library.plans['am-fm-shared'];
		const leak = plan && partsOf(library, plan).find(({ id }) => id === 'output-grid-leak');
		expect(leak?.value).toBe('470 kohm');
	});
});
