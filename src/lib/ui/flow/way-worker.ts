import { drawingWords, drawWay, linesIn, type Shape } from '$lib/flow/draw/layout.ts';
import { outlineOf } from '$lib/flow/draw/outline.ts';
import { percent } from '$lib/flow/draw/percent.ts';
import { qualityOf, timesOf } from '$lib/flow/draw/quality.ts';
import { followWay, type Way } from '$lib/flow/draw/way.ts';
import { resolveFlow, type ResolvedFlow } from '$lib/flow/resolve.ts';
import { lookAheadFully } from '$lib/suspects/index.ts';
import type { ShownDrawing, ShownWay, WayAsked, WaySaid } from './work-out.ts';

/** Works out a way beside the page: some thirty searches, each told as it is begun. */

/** The few words of a worker's own scope that are used here; the page's types do not hold them. */
const scope = globalThis as unknown as {
	addEventListener(kind: 'message', hear: (event: { data: WayAsked | 'enough' }) => void): void;
	postMessage(said: WaySaid): void;
};

let enough = false;

scope.addEventListener('message', ({ data }) => {
	if (data === 'enough') enough = true;
	else void answer(data);
});

async function answer({ library, flow, plan }: WayAsked): Promise<void> {
	const [asked, on] = [library.flows[flow], library.plans[plan]];
	if (!asked || !on) return;
	const resolved = resolveFlow(library, asked, on);
	let stops = 0;
	const way = await followWay(resolved, async (question) => {
		scope.postMessage({ stops: ++stops });
		// Room for the word that it is enough.
		await new Promise((go) => setTimeout(go));
		return enough ? undefined : lookAheadFully(question);
	});
	scope.postMessage({ way: shownWay(resolved, way) });
}

function shownWay(resolved: ResolvedFlow, way: Way): ShownWay {
	const shown = (shape: Shape): ShownDrawing => {
		const drawing = drawWay(way, shape);
		return { ...drawing, boxes: drawing.boxes.map((box) => ({ ...box, text: linesIn(box) })) };
	};
	const quality = qualityOf(resolved);
	return {
		drawings: { wide: shown('wide'), tall: shown('tall') },
		words: drawingWords(way),
		outline: outlineOf(way),
		figures: figuresOf(quality, way),
		together: quality.together
	};
}

function figuresOf(
	{ suspects, entropy, asHardAs }: ReturnType<typeof qualityOf>,
	way: Way
): ShownWay['figures'] {
	const { expected, ended } = timesOf(way);
	const figures: ShownWay['figures'] = [
		['Suspects that take part', String(suspects)],
		['Open at the start', `${entropy.toFixed(1)} bits, as ${Math.round(asHardAs)} equal suspects`]
	];
	if (expected !== undefined)
		figures.push(['Until the set works, at most', `about ${Math.round(expected)} min`]);
	figures.push(['Followed to a verdict here', `${percent(ended.share)} of traces`]);
	if (ended.share > 0) figures.push(['Minutes to those verdicts', `${Math.round(ended.minutes)} on average`]);
	return figures;
}
