import type { Library } from '../../../src/lib/flow/library.ts';
import {
	eventId,
	type EventData,
	type EventKind,
	type Intake,
	type JobEvent
} from '../../../src/lib/job/events.ts';
import { headsOf } from '../../../src/lib/job/order.ts';
import { takeSnapshot, type Snapshot } from '../../../src/lib/job/snapshot.ts';
import { tiny } from './tiny.ts';

export const digest = globalThis.crypto.subtle;

export const intake = (more: Partial<Intake> = {}): Intake => ({
	title: 'Table set, green dial',
	plan: 'tiny',
	symptom: { am: 'weak', fm: 'good' },
	history: ['untouched'],
	instruments: ['meter-10M'],
	playing: true,
	...more
});

export const snapshot = (flow = 'am-faint', library: Library = tiny): Promise<Snapshot> => {
	const [given, plan] = [library.flows[flow], library.plans['tiny']];
	if (!given || !plan) throw new Error(flow);
	return takeSnapshot(library, given, plan, digest);
};

/** Events of one bench, written one after the other, an hour apart. */
export class Log {
	readonly events: JobEvent[] = [];

	constructor(
		readonly bench = 'bench',
		readonly job = 'job'
	) {}

	add<Kind extends EventKind>(kind: Kind, data: EventData[Kind], parents = headsOf(this.events)): string {
		const seq = this.events.filter(({ bench }) => bench === this.bench).length + 1;
		const id = eventId(this.bench, seq);
		const at = new Date(Date.UTC(2026, 0, 1, seq)).toISOString();
		this.events.push({ id, job: this.job, bench: this.bench, seq, parents, kind, data, at } as JobEvent);
		return id;
	}

	answer(
		flow: string,
		step: string,
		outcome: string,
		more: Partial<EventData['answered']> = {}
	): [took: string, answered: string] {
		return [
			this.add('took', { flow, step }),
			this.add('answered', { flow, step, outcome, sure: true, ...more })
		];
	}

	undo(target: string): string {
		return this.add('undone', { target });
	}

	/** Proved dead, part changed, up through the limiter, proved. */
	repair(
		flow: string,
		suspect: string,
		symptom: EventData['proved']['symptom'],
		partWas: EventData['proved']['partWas'] = 'bad'
	) {
		this.add('suspected', { flow, suspect });
		this.add('repairing', { flow });
		this.add('power', { to: 'unplugged', volts: [2, 0.5] });
		this.add('part-changed', { flow, part: suspect, fitted: 'new one' });
		this.add('power', { to: 'limiter' });
		this.add('power', { to: 'live' });
		this.add('proved', { flow, symptom, partWas });
	}
}

/** A job on the am-faint flow, the set live. */
export function opened(kept: Snapshot, more: Partial<Intake> = {}): Log {
	const log = new Log();
	log.add('started', {});
	log.add('intake', intake(more));
	log.add('flow-opened', { flow: 'am-faint', plan: 'tiny', hash: kept.hash });
	log.add('power', { to: 'live' });
	return log;
}

export const volts = (
	value: number,
	point = 'output.grid'
): NonNullable<EventData['answered']['reading']> => ({
	typed: `${value} V`,
	value,
	unit: 'V',
	point,
	power: 'live'
});
