import type { TrailLine } from '$lib/job/trail.ts';

const DAY = 24 * 60 * 60 * 1000;

/** How long a job lay, in words; undefined up to a day, when the person still knows. */
export function awayFor(left: string, now: number): string | undefined {
	const days = Math.floor((now - Date.parse(left)) / DAY);
	if (!(days >= 1)) return undefined;
	if (days === 1) return 'a day';
	return days < 60 ? `${days} days` : `${Math.round(days / 30.4)} months`;
}

/** What was found, the newest last, in one line each. */
export const findingsOf = (trail: readonly TrailLine[]): { id: string; text: string }[] =>
	trail
		.filter(({ kind, undone, refused }) => kind === 'answered' && !undone && refused === undefined)
		.map(({ event, what, answer, reading }) => ({
			id: event,
			text: `${what}${what.endsWith('?') ? '' : ':'} ${[reading, answer].filter(Boolean).join(', ')}`
		}));

const AT_A_PART: Readonly<Record<string, string>> = {
	suspected: 'About to prove',
	repairing: 'Changing',
	proving: 'Changed, to be proved',
	cured: 'Cured'
};

/** Where the job was left: at a part, at a step, or before the first. */
export function placeWords(machine: string, part: string, lastStep: string | undefined): string {
	if (machine === 'unresolved') return 'Left unresolved';
	const stage = Object.hasOwn(AT_A_PART, machine) ? AT_A_PART[machine] : undefined;
	return stage ? `${stage}: ${part}` : (lastStep ?? 'Before the first step');
}
