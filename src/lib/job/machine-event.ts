import { outcomesOf } from '../flow/evidence.ts';
import { stepOfState } from '../flow/compile.ts';
import type { MachineEvent } from '../flow/machine-types.ts';
import { isProvoking, outcomeOfSheet, sheetProblem } from '../flow/provocation.ts';
import { expectedAt, judgeReading, type ServiceVolts } from '../flow/reading.ts';
import type { ResolvedFlow } from '../flow/resolve.ts';
import type { EventData, EventOf } from './events.ts';
import { contextOf, stateOf, type Run } from './run.ts';

/** Kinds of event that are moves of a flow's machine. */
export type Move = EventOf<
	| 'took'
	| 'left'
	| 'prepared'
	| 'answered'
	| 'cannot-tell'
	| 'skipped'
	| 'suspected'
	| 'repairing'
	| 'part-changed'
	| 'proved'
	| 'gave-up'
	| 'went-on'
>;

/** The outcome that a reading or a sheet means by this flow; the recorded one where neither decides it. */
export function outcomeOf(
	resolved: ResolvedFlow,
	data: EventData['answered'],
	service: ServiceVolts = {}
): string {
	const step = Object.hasOwn(resolved.steps, data.step) ? resolved.steps[data.step] : undefined;
	if (step && isProvoking(step) && data.provoked) return outcomeOfSheet(step, data.provoked) ?? data.outcome;
	if (!step || step.kind !== 'measure' || !data.reading) return data.outcome;
	const judged = judgeReading(
		step,
		data.reading.value,
		expectedAt(resolved.plan, step.at, service, data.reading.ht)
	);
	return judged?.outcome ?? data.outcome;
}

function answerOf(run: Run, data: EventData['answered'], service: ServiceVolts): MachineEvent {
	const { reading, way, sure, provoked } = data;
	return {
		type: 'ANSWER',
		outcome: outcomeOf(run.resolved, data, service),
		...(reading ? { typed: reading.typed, reading: reading.value } : {}),
		...(reading?.ht ? { ht: reading.ht } : {}),
		...(way === undefined ? {} : { way }),
		...(sure ? {} : { sure }),
		...(provoked ? { provoked } : {})
	};
}

/** Needs nothing but the kind, or one word of the data. */
const plain = (kind: Move['kind'], data: Move['data']): MachineEvent | undefined => {
	switch (kind) {
		case 'took':
			return { type: 'TAKE', step: (data as EventData['took']).step };
		case 'cannot-tell':
			return { type: 'CANNOT_TELL', reason: (data as EventData['cannot-tell']).reason };
		case 'suspected':
			return { type: 'SUSPECT', suspect: (data as EventData['suspected']).suspect };
		case 'left':
			return { type: 'LEAVE' };
		case 'prepared':
			return { type: 'PREPARED' };
		case 'skipped':
			return { type: 'SKIP' };
		case 'repairing':
			return { type: 'REPAIR' };
		case 'part-changed':
			return { type: 'CHANGED' };
		case 'gave-up':
			return { type: 'GIVE_UP' };
		case 'went-on':
			return { type: 'GO_ON' };
		default:
			return undefined;
	}
};

/** A stored event as the machine takes it. */
export function machineEventOf(
	run: Run,
	{ kind, data }: Move,
	service: ServiceVolts
): MachineEvent | undefined {
	if (kind === 'answered') return answerOf(run, data as EventData['answered'], service);
	if (kind !== 'proved') return plain(kind, data);
	const { symptom, partWas } = data as EventData['proved'];
	return { type: 'PROVE', symptom, partWas };
}

/** The step that the machine is at, or that waits behind a gate. */
const stepNow = (run: Run): string | undefined => stepOfState(stateOf(run)) ?? contextOf(run).wanted;

/** Why the machine cannot take this event where it stands, in a sentence; `undefined` where nothing speaks against it. */
export function misplaced(run: Run, { kind, data }: Move): string | undefined {
	if (!('step' in data)) return undefined;
	const { step } = data;
	const { steps } = run.resolved;
	const known = Object.hasOwn(steps, step) ? steps[step] : undefined;
	if (!known) return `This flow has no step "${step}" on this set.`;
	if (kind === 'answered' && !outcomesOf(known).includes((data as EventData['answered']).outcome))
		return `"${known.title}" has no answer "${(data as EventData['answered']).outcome}".`;
	if (kind === 'answered') {
		const { provoked } = data as EventData['answered'];
		const wrong = provoked && sheetProblem(known, provoked);
		if (wrong !== undefined) return wrong;
	}
	if (kind !== 'took' && stepNow(run) !== step) return `"${known.title}" was not the step in hand.`;
	return undefined;
}
