import { powerGate } from '$lib/flow/compile.ts';
import type { Power } from '$lib/flow/machine-types.ts';
import { causeGate } from '$lib/job/after-repair.ts';
import { clashGate, type Clash } from '$lib/job/set-clash.ts';
import { fits } from '$lib/receiver/index.ts';
import type { JobDesk } from '$lib/ui/state/job-desk.svelte.ts';
import type { CautionText } from '$lib/ui/step/types.ts';

/** Why the set may not pass to this power state now; nothing where it may. The same gates as beside the trace. */
export function refuse(
	{ state }: JobDesk,
	clashes: readonly Clash[],
	to: Power,
	volts?: [number, number]
): string | undefined {
	const { now, limiterPassed } = state.power;
	return (
		causeGate(state, to) ?? clashGate(clashes, to) ?? powerGate({ power: now, limiterPassed }, to, volts)
	);
}

const PASSAGE = ['discharge', 'first-power', 'limiter-does-not-isolate', 'live-work', 'live-chassis'];

/** Cautions of each passage between power states, as far as they belong to this set. */
export function passageCautions({ library, state }: JobDesk): CautionText[] {
	const traits = library.plans[state.intake?.plan ?? '']?.traits ?? {};
	return PASSAGE.flatMap((id): CautionText[] => {
		const caution = library.cautions[id];
		if (!caution || !fits(traits, caution.only)) return [];
		const keys = typeof caution.source === 'string' ? [caution.source] : caution.source;
		const source = keys.map((key) => library.sources[key]?.title ?? key);
		const covers = caution.covers.length > 0 ? caution.covers : (['limiter', 'live'] as const);
		return [{ title: caution.title, text: caution.text, source, covers: [...covers] }];
	});
}
