import { error } from '@sveltejs/kit';
import { flows, openFlow } from 'virtual:flows';
import type { EntryGenerator, PageLoad } from './$types';

export const entries: EntryGenerator = () => flows.map(({ id }) => ({ id }));

export const load: PageLoad = async ({ params }) => {
	const flow = await openFlow(params.id);
	if (!flow) error(404, 'There is no such flow.');
	return { flow };
};
