import { expect, test } from 'vitest';
import { pageOf } from '../../../src/lib/flow/pages.ts';
import { shippedLibrary } from '../../library.ts';

const library = shippedLibrary();

function cautionsOn(id: string): string[] {
	const flow = library.flows[id];
	if (!flow) throw new Error(`There is no flow "${id}".`);
	return pageOf(library, flow).cautions.map(({ title }) => title);
}

const FILAMENTS = 'Filaments live on their own volts alone';
const LAMP = 'On the lamp limiter';

test('the page of a flow shows the cautions of the sets that can have it, and no others', () => {
	expect(cautionsOn('wake-battery-set')).toContain(FILAMENTS);
	expect(cautionsOn('wake-battery-set')).not.toContain(LAMP);
	expect(cautionsOn('wake-after-storage')).toContain(LAMP);
	expect(cautionsOn('wake-after-storage')).not.toContain(FILAMENTS);
	expect(cautionsOn('wake-battery-set').join()).not.toMatch(/mains|line-cord/i);
	expect(cautionsOn('align-fm')).not.toContain('The chassis is joined to the mains');
	expect(cautionsOn('align-am')).toContain('The chassis is joined to the mains');
});
