/** What the list of jobs fetches once it is long enough to be searched. */
export { JobSearch, namesOf, noNames } from '$lib/job/search.ts';
export { default as FindJobs } from './FindJobs.svelte';
