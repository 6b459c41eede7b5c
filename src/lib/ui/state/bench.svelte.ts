import { INSTRUMENTS, type Instrument } from '$lib/flow/terms.ts';

/** What stands on this bench, set once: kept in the browser, copied into each job as it is opened. */
export interface Bench {
	instruments: Instrument[];
	/** Mains volts as measured last; as typed. */
	mains: string;
	/** Input resistance of the meter on volts; as typed. */
	meter: string;
	theme: 'system' | 'day' | 'night';
	/** Digits answer, letters undo and skip. */
	keys: boolean;
	/** The list of suspects is shown only once the restorer has written down his own. */
	ownFirst: boolean;
	/** Own closed jobs move how common a cause is, in complaints opened from now on. */
	ownJobs: boolean;
}

const KEY = 'valvetrail-bench';
const START: Bench = {
	instruments: ['meter', 'meter-10M', 'lamp-limiter'],
	mains: '',
	meter: '10M',
	theme: 'system',
	keys: true,
	ownFirst: false,
	ownJobs: false
};

function stored(): Partial<Bench> {
	try {
		const found: unknown = JSON.parse(localStorage.getItem(KEY) ?? '{}');
		return typeof found === 'object' && found !== null ? found : {};
	} catch {
		// Storage refused, or not ours: the bench starts anew.
		return {};
	}
}

const known = (names: unknown): Instrument[] | undefined =>
	Array.isArray(names)
		? names.filter((name): name is Instrument => Object.hasOwn(INSTRUMENTS, String(name)))
		: undefined;

class BenchState {
	value = $state<Bench>({ ...START });

	/** Call in the browser only. */
	open(): void {
		const found = stored();
		this.value = { ...START, ...found, instruments: known(found.instruments) ?? START.instruments };
		this.paint();
	}

	set(change: Partial<Bench>): void {
		this.value = { ...this.value, ...change };
		try {
			localStorage.setItem(KEY, JSON.stringify(this.value));
		} catch {
			// Kept for this page only; the job itself has its own copy.
		}
		this.paint();
	}

	/** The theme that was chosen; none follows the system. */
	paint(): void {
		const { theme } = this.value;
		if (theme === 'system') delete document.documentElement.dataset['theme'];
		else document.documentElement.dataset['theme'] = theme;
	}
}

export const bench = new BenchState();
