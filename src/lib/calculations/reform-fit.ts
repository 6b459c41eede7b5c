/** A reading on the reforming supply: s, A. */
export interface LeakageReading {
	time: number;
	current: number;
}

/** The law I = exp(intercept) * t^slope, in s and A. */
export interface LeakageFit {
	slope: number;
	intercept: number;
}

const mean = (values: readonly number[]): number =>
	values.reduce((sum, value) => sum + value, 0) / values.length;

/**
 * Straight line through the last three readings (two, where there are no more) on logarithmic paper, by least squares;
 * undefined for a single one.
 */
export function fitLeakage(readings: readonly LeakageReading[]): LeakageFit | undefined {
	const last = readings.slice(-3);
	if (last.length < 2) return undefined;
	const x = last.map(({ time }) => Math.log(time));
	const y = last.map(({ current }) => Math.log(current));
	const [mx, my] = [mean(x), mean(y)];
	const rise = x.reduce((sum, value, i) => sum + (value - mx) * ((y[i] ?? my) - my), 0);
	const slope = rise / x.reduce((sum, value) => sum + (value - mx) ** 2, 0);
	return { slope, intercept: my - slope * mx };
}

/** Current that the law promises at a time, A. */
export const currentAt = ({ slope, intercept }: LeakageFit, time: number): number =>
	Math.exp(intercept + slope * Math.log(time));

/** Time at which the law reaches a current, s; undefined where it does not fall. */
export const timeAt = ({ slope, intercept }: LeakageFit, current: number): number | undefined =>
	slope < 0 ? Math.exp((Math.log(current) - intercept) / slope) : undefined;
