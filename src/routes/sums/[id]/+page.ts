import { error } from '@sveltejs/kit';
import { calculationIds, calculationOf } from '$lib/calculations/index.ts';
import type { EntryGenerator, PageLoad } from './$types';

export const entries: EntryGenerator = () => calculationIds.map((id) => ({ id }));

export const load: PageLoad = ({ params }) => {
	const calculation = calculationOf(params.id);
	if (!calculation) error(404, 'There is no such sum.');
	return { calculation };
};
