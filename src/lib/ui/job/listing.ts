/** What the list of jobs fetches while the store is opened: nothing of it can be shown before. */
export { JobSearch, namesOf, noNames } from '$lib/job/search.ts';
export { default as FindJobs } from './FindJobs.svelte';
export { default as JobListRow } from './JobListRow.svelte';
export { default as CopyReminder } from '$lib/ui/keep/CopyReminder.svelte';
export { saveJob } from '$lib/ui/keep/save-jobs.ts';
export { default as TakeIn } from '$lib/ui/keep/TakeIn.svelte';
