import { describe, expect, test } from 'vitest';
import {
	drawerValues,
	keepDrawer,
	keptDrawer,
	type Shelf,
	tidyDrawer
} from '../../../../src/lib/ui/sums/drawer.ts';

function shelf(): Shelf {
	const kept = new Map<string, string>();
	return () => ({
		getItem: (name) => kept.get(name) ?? null,
		setItem: (name, text) => void kept.set(name, text)
	});
}
const refusing: Shelf = () => {
	throw new Error('refused');
};

describe('a drawer of parts', () => {
	test('values stand in order, each once, as the trade writes them', () => {
		expect(tidyDrawer('4k7; 100; 4700; 1M', 'ohm')).toBe('100 Ω; 4.7 kΩ; 1 MΩ');
		expect(drawerValues('100; 4k7', 'ohm').map(({ label }) => label)).toEqual(['100 Ω', '4.7 kΩ']);
	});

	test('what was put in is there the next time, for each kind of part apart', () => {
		const browser = shelf();
		expect(keepDrawer(browser, 'drawer_ohm', '100 Ω')).toBe(true);
		expect(keptDrawer(browser, 'drawer_ohm')).toBe('100 Ω');
		expect(keptDrawer(browser, 'drawer_uF')).toBe('');
	});

	test('a browser that keeps nothing says so, and the page goes on', () => {
		expect(keptDrawer(refusing, 'drawer_ohm')).toBe('');
		expect(keepDrawer(refusing, 'drawer_ohm', '100 Ω')).toBe(false);
	});

	test('text that cannot be read is left as it was typed', () => {
		expect(tidyDrawer('100; rubbish', 'ohm')).toBe('100; rubbish');
		expect(drawerValues('100; rubbish', 'ohm')).toEqual([]);
	});
});
