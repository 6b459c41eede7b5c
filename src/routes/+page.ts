import { flows } from 'virtual:flows';
import type { PageLoad } from './$types';

export const load: PageLoad = () => ({ flows });
