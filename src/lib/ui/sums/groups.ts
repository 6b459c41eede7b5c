import { type Calculation, calculations, GROUPS } from '$lib/calculations/index.ts';

const all = Object.values<Calculation>(calculations);

/** Every sum, where a restorer would look for it. */
export const groups = GROUPS.map((title) => ({ title, sums: all.filter((sum) => sum.group === title) }));
