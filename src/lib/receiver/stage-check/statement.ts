import type { Explanation, StageFinding, Verdict } from './types.ts';

/** Misfit beyond which nothing on the list explains the readings: mean of a sum of so many squares, and some times its spread. */
const tooFar = (count: number): number => 2 * count + 3.5 * Math.sqrt(2 * count) + 4;
const SOUND_FROM = 0.5;
const FAULT_BELOW = 0.2;
const STANDS_OUT = 0.75;

export function verdictOf(
	sound: { score: number },
	all: readonly { misfit: number }[],
	count: number
): Verdict {
	if (Math.min(...all.map(({ misfit }) => misfit)) > tooFar(count)) return 'unexplained';
	if (sound.score >= SOUND_FROM) return 'sound';
	return sound.score < FAULT_BELOW ? 'fault' : 'doubtful';
}

/** The finding in one or two sentences. */
export function statementOf(
	verdict: Verdict,
	explanations: readonly Explanation[],
	{ addUp, unseen }: Pick<StageFinding, 'addUp'> & { unseen?: string | undefined }
): string {
	const [first, second] = explanations;
	const sums = addUp && !addUp.ok ? ` ${addUp.words}` : '';
	if (!first) return '';
	if (verdict === 'sound')
		return `These DC volts show no fault: every reading is within the tolerances of parts, valve and meter. They would not show ${unseen ? `${unseen}, nor ` : ''}an open or dry capacitor.`;
	if (verdict === 'unexplained')
		return `No single fault gives these readings.${sums} Read them again; if they stay, look for two faults, or a part that is not as marked.`;
	if (verdict === 'doubtful')
		return `Near the edge of the tolerances. If anything is wrong: ${lowered(first.words)}${sums}`;
	if (first.score >= STANDS_OUT || !second) return `${first.words}${sums}`;
	return `${first.words} Or: ${lowered(second.words)}${sums}`;
}

const lowered = (words: string): string => words.charAt(0).toLowerCase() + words.slice(1);
