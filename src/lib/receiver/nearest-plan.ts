import { findValve } from '../valves/index.ts';
import type { Plan } from './plan.ts';
import { pointOn } from './valve-in-place.ts';

/** The six questions that stand in for a circuit diagram. Left out: not known. */
export interface SixAnswers {
	supply?: 'transformer' | 'ac-dc' | 'battery';
	fm?: 'yes' | 'no';
	/** Whether AM and FM share their IF cans. */
	cans?: 'combined' | 'separate';
	rectifier?: 'valve' | 'selenium' | 'silicon';
	/** Where the output valve gets its bias: a resistor at its cathode, or one in HT negative. */
	bias?: 'cathode' | 'back';
	aerial?: 'rod' | 'loop' | 'wire';
}

/** A plan chosen without a diagram, the valves put in their places, and what was taken for granted. */
export interface NearestPlan {
	plan: Plan;
	/** Valve of the plan -> type of the line-up. */
	valves: Record<string, string>;
	/** Types that found no place. */
	left: string[];
	/** Places that no type was found for: there the plan's own stands. */
	empty: string[];
	assumed: string[];
}

const rolesOf = (type: string): readonly string[] => {
	const found = findValve(type);
	return found.ok ? found.valve.roles : [];
};

/** How well a type suits a place, by the duties of the type that the plan has there. */
function suits(type: string, planned: string): number {
	const [own, wanted] = [rolesOf(type), rolesOf(planned)];
	const shared = wanted.filter((role) => own.includes(role)).length;
	const kind = (name: string) => {
		const found = findValve(name);
		return found.ok ? found.valve.kind : name;
	};
	if (shared === 0) return 0;
	return shared / Math.max(wanted.length, own.length) + (kind(type) === kind(planned) ? 1 : 0);
}

/** Put each type where it suits best, the surest first; one bulb with two duties may fill two places. */
export function placeLineUp(
	plan: Plan,
	types: readonly string[]
): Pick<NearestPlan, 'valves' | 'left' | 'empty'> {
	const places = Object.entries(plan.valves).map(([id, { type }]) => ({ id, planned: type }));
	const pairs = places
		.flatMap(({ id, planned }) =>
			types.map((type, index) => ({ id, index, type, fit: suits(type, planned) }))
		)
		.filter(({ fit }) => fit > 0)
		.sort((a, b) => b.fit - a.fit);
	const valves: Record<string, string> = {};
	const used = new Set<number>();
	for (const { id, index, type } of pairs) {
		if (valves[id] !== undefined || used.has(index)) continue;
		valves[id] = type;
		used.add(index);
	}
	for (const { id, type } of pairs) valves[id] ??= type;
	return {
		valves,
		left: types.filter((_, index) => !used.has(index)),
		empty: places.map(({ id }) => id).filter((id) => valves[id] === undefined)
	};
}

/** A set with metal rectification has no valve there. */
const isMissingRectifier = (plan: Plan, id: string, { rectifier }: SixAnswers): boolean =>
	rectifier !== undefined && rectifier !== 'valve' && plan.lines['ht']?.valve === id;

const SUPPLY = { transformer: 'transformer', 'ac-dc': 'none', battery: 'battery' } as const;

/** Questions that shut a plan out, and those that only speak against it. */
function mismatch(plan: Plan, answers: SixAnswers): number {
	const { traits, bands } = plan;
	const hard = [
		answers.supply !== undefined && traits.mains !== undefined && traits.mains !== SUPPLY[answers.supply],
		answers.fm !== undefined && (bands['fm'] !== undefined) !== (answers.fm === 'yes')
	].filter(Boolean).length;
	const soft = [
		traits.bias !== undefined && traits.bias !== (answers.bias ?? 'cathode'),
		answers.aerial !== undefined && traits.aerial !== undefined && traits.aerial !== answers.aerial
	].filter(Boolean).length;
	return 10 * hard + 0.5 * soft;
}

function assumptions(plan: Plan, answers: SixAnswers, placed: Pick<NearestPlan, 'left' | 'empty'>): string[] {
	const assumed: string[] = [];
	const { traits, bands } = plan;
	if (answers.supply === undefined) assumed.push(`The supply was not told: taken as in “${plan.title}”.`);
	else if (traits.mains !== SUPPLY[answers.supply])
		assumed.push(
			`No kind of set here has just this supply. “${plan.title}” comes nearest: its power steps may not suit.`
		);
	if (answers.fm === undefined)
		assumed.push(`Whether it has FM was not told: taken as ${bands['fm'] ? 'yes' : 'no'}.`);
	else if ((bands['fm'] !== undefined) !== (answers.fm === 'yes'))
		assumed.push(
			'The bands differ from those of this kind of set: steps on the others say nothing of yours.'
		);
	if (answers.bias === undefined) assumed.push('Bias of the output valve: taken as by its cathode resistor.');
	else if (traits.bias !== answers.bias && traits.bias !== undefined)
		assumed.push(
			'The bias of the output valve differs from this kind of set: it is put right in the plan, its part values are not.'
		);
	for (const id of placed.empty.filter((one) => !isMissingRectifier(plan, one, answers)))
		assumed.push(
			`${plan.valves[id]?.title ?? id}: no valve was named for it, a ${plan.valves[id]?.type ?? 'usual one'} is taken.`
		);
	if (placed.left.length > 0) assumed.push(`Without a place in this kind of set: ${placed.left.join(', ')}.`);
	return assumed;
}

/** The kind of set that comes nearest to a line-up and the six answers. Equal ones in the order given. */
export function nearestPlan(
	plans: readonly Plan[],
	types: readonly string[],
	answers: SixAnswers
): NearestPlan | undefined {
	const ranked = plans
		.map((plan) => {
			const placed = placeLineUp(plan, types);
			const fit = Object.entries(placed.valves).reduce(
				(sum, [id, type]) => sum + suits(type, plan.valves[id]?.type ?? ''),
				0
			);
			const twice = Object.keys(placed.valves).length - (types.length - placed.left.length);
			const unfilled = placed.empty.filter((id) => !isMissingRectifier(plan, id, answers)).length;
			const cost = mismatch(plan, answers) + 1.5 * (placed.left.length + unfilled) + 2.2 * twice - fit;
			return { plan, placed, cost };
		})
		.sort((a, b) => a.cost - b.cost);
	const [best] = ranked;
	return best && { plan: best.plan, ...best.placed, assumed: assumptions(best.plan, answers, best.placed) };
}

/** What the six answers change in the traits of a plan: chassis and heaters stay with the kind of set. */
export function traitsBy(answers: SixAnswers): Partial<Plan['traits']> {
	const { cans, rectifier, bias, aerial } = answers;
	return {
		...(cans && answers.fm !== 'no' ? { 'if-cans': cans } : {}),
		...(rectifier && answers.supply !== 'battery' ? { rectifier } : {}),
		...(bias ? { bias } : {}),
		...(aerial ? { aerial } : {})
	};
}

/** The line-up as typed: types with anything but letters, digits and a stroke between them. */
export const typesIn = (text: string): string[] =>
	text
		.toUpperCase()
		.split(/[^A-Z0-9/]+/)
		.filter((word) => /\d/.test(word) && /^[A-Z0-9/]{2,12}$/.test(word));

/** A plan with the valves of the set at hand in it, and what the answers change. The plan itself stays as it is. */
export function planWith(
	plan: Plan,
	types: Readonly<Record<string, string>>,
	traits: Partial<Plan['traits']> = {}
): Plan {
	const changed = Object.entries(types).filter(
		([id, type]) => plan.valves[id] && plan.valves[id].type !== type
	);
	if (changed.length === 0 && Object.keys(traits).length === 0) return plan;
	const valves = { ...plan.valves };
	for (const [id, type] of changed) valves[id] = { title: plan.valves[id]?.title ?? id, type };
	const put = new Map(changed);
	const points = Object.fromEntries(
		Object.entries(plan.points).map(([id, point]) => {
			const type = put.get(point.valve ?? '');
			const planned = plan.valves[point.valve ?? '']?.type ?? '';
			return [id, type === undefined ? point : pointOn(plan, point, planned, type)];
		})
	);
	return { ...plan, valves, points, traits: { ...plan.traits, ...traits } };
}
