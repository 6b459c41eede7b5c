import type { Intake } from '$lib/job/events.ts';
import type { Bench } from '$lib/ui/state/bench.svelte.ts';
import { readValue } from '$lib/ui/value.ts';

/** In base units; nothing where nothing was typed that can be read. */
const valueOf = (text: string, unit: 'V' | 'ohm') => {
	const reading = readValue(text, unit);
	return reading.state === 'read' ? reading.values[0] : undefined;
};

/** What a job keeps of the bench that it lies on. */
export function benchValues(bench: Bench): Pick<Intake, 'instruments' | 'mains' | 'meter'> {
	const [mains, meter] = [valueOf(bench.mains, 'V'), valueOf(bench.meter, 'ohm')];
	return {
		instruments: [...bench.instruments],
		...(mains === undefined ? {} : { mains }),
		...(meter === undefined ? {} : { meter })
	};
}
