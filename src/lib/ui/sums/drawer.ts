import { printQuantity, type ScaleName, scaleOf } from '$lib/quantity/index.ts';
import { readValues, typedValue } from '../value.ts';

/** What of the browser's store a drawer needs. It may be full; where it is refused, asking for it already fails. */
export type Shelf = () => Pick<Storage, 'getItem' | 'setItem'>;

const nameOf = (key: string): string => `valvetrail-drawer-${key}`;

/** Values as text with semicolons between them, as a field holds them; the least first, each once. */
export function tidyDrawer(text: string, unit: ScaleName): string {
	const read = readValues(text, unit);
	if (read.state !== 'read') return text;
	const values = [...new Set(read.values)].sort((a, b) => a - b);
	return values.map((value) => typedValue(value, scaleOf(unit).unit)).join('; ');
}

/** One value of a drawer: as it stands in the text, and as it is shown. */
export interface DrawerValue {
	text: string;
	label: string;
}

/** The values in the text of a drawer. What cannot be read is left out. */
export function drawerValues(text: string, unit: ScaleName): DrawerValue[] {
	const read = readValues(text, unit);
	if (read.state !== 'read') return [];
	const base = scaleOf(unit).unit;
	return read.values.map((value) => ({
		text: typedValue(value, base),
		label: printQuantity(value, base, { digits: 6 })
	}));
}

/** What was kept under the key of the input; empty where nothing was, or where the browser keeps nothing. */
export function keptDrawer(shelf: Shelf, key: string): string {
	try {
		return shelf().getItem(nameOf(key)) ?? '';
	} catch {
		return '';
	}
}

/** Keeps the text of a drawer; false where the browser refused. */
export function keepDrawer(shelf: Shelf, key: string, text: string): boolean {
	try {
		shelf().setItem(nameOf(key), text);
		return true;
	} catch {
		return false;
	}
}
