/** What a job page fetches while log and library are read: nothing of it can be shown before them. */
export { default as ChangePictures } from '$lib/ui/picture/ChangePictures.svelte';
export { default as CauseBehind } from '$lib/ui/step/CauseBehind.svelte';
export { default as FitClash } from '$lib/ui/set/FitClash.svelte';
export { keptSo, putRight } from '$lib/job/set-clash.ts';
export { default as NothingLeft } from '$lib/ui/step/NothingLeft.svelte';
export { default as PowerGate } from '$lib/ui/step/PowerGate.svelte';
export { default as ProcedureDone } from '$lib/ui/step/ProcedureDone.svelte';
export { default as Proof } from '$lib/ui/step/Proof.svelte';
export { default as ReceiverDrawing } from '$lib/ui/receiver/ReceiverDrawing.svelte';
export { default as OwnSuspicion } from '$lib/ui/suspects/OwnSuspicion.svelte';
export { default as SectionBars } from '$lib/ui/suspects/SectionBars.svelte';
export { default as SuspectList } from '$lib/ui/suspects/SuspectList.svelte';
export { default as JobPage } from './JobPage.svelte';
export { default as Listening } from './Listening.svelte';
export { default as PhaseFold } from './PhaseFold.svelte';
export { default as PickUpCard } from './PickUpCard.svelte';
export { default as JobLinks } from './JobLinks.svelte';
export { default as StepPane } from './StepPane.svelte';
