/** The loop of automatic volume control: the detector's DC lowers the gain of the stages before it. Base units. */
export interface AvcLoop {
	/** From the signal to the diode, no AVC acting, times. */
	gain: number;
	/** Stages that get the full volts of the line. */
	stages: number;
	/** Volts on the average that halve the slope of one stage. */
	perHalving: number;
	/** DC of the diode for each volt of peak IF, 0 to 1. */
	efficiency: number;
	/** Peak volts at the diode below which the line stays at rest. */
	delay: number;
}

/** IF at the diode, volts RMS, with `line` volts of AVC (above nought here) acting. */
export const diodeVolts = ({ gain, stages, perHalving }: AvcLoop, signal: number, line: number): number =>
	signal * gain * 2 ** ((-stages * line) / perHalving);

/** DC of a peak rectifier for `rms` volts of IF, above nought. */
export const rectified = (
	rms: number,
	{ efficiency, delay }: Pick<AvcLoop, 'efficiency' | 'delay'>
): number => Math.max(0, Math.SQRT2 * rms * efficiency - delay);

const HALVINGS = 60;

/** Volts on the line, above nought, at which the loop comes to rest for `signal` volts RMS. Found by halving: more line, less signal. */
export function lineVolts(loop: AvcLoop, signal: number): number {
	let least = 0;
	let most = rectified(diodeVolts(loop, signal, 0), loop);
	for (let i = 0; i < HALVINGS; i++) {
		const line = (least + most) / 2;
		if (rectified(diodeVolts(loop, signal, line), loop) > line) least = line;
		else most = line;
	}
	return (least + most) / 2;
}
