import { given, network, type State } from './network.ts';

// Tables read in the R package gRain (Lauritzen and Spiegelhalter 1988); outputs by our own enumeration.
export const clinic = network({
	asia: () => 0.01,
	smoke: () => 0.5,
	tub: ({ asia }) => given(asia, 0.05, 0.01),
	lung: ({ smoke }) => given(smoke, 0.1, 0.01),
	bronc: ({ smoke }) => given(smoke, 0.6, 0.3),
	either: ({ tub, lung }) => given(tub || lung, 1, 0),
	xray: ({ either }) => given(either, 0.98, 0.05),
	dysp: ({ bronc, either }) => (bronc ? given(either, 0.9, 0.8) : given(either, 0.7, 0.1))
});

/** Chance of the evidence, then of tub, lung, bronc, either and xray with it. */
export const CLINIC_FIGURES: readonly { evidence: State; chance: number; chances: readonly number[] }[] = [
	{ evidence: {}, chance: 1, chances: [0.0104, 0.055, 0.45, 0.064828, 0.11029] },
	{
		evidence: { dysp: true },
		chance: 0.435971,
		chances: [0.018845, 0.102759, 0.833967, 0.120536, 0.162098]
	},
	{
		evidence: { asia: true, dysp: true },
		chance: 0.00450138,
		chances: [0.087751, 0.099525, 0.811402, 0.1823, 0.219539]
	},
	{
		evidence: { asia: true, dysp: true, xray: false },
		chance: 0.00351315,
		chances: [0.002249, 0.00255, 0.862761, 0.004672, 0]
	},
	{
		evidence: { asia: true, dysp: true, xray: true },
		chance: 0.000988227,
		chances: [0.391712, 0.444271, 0.628822, 0.813769, 1]
	}
];
