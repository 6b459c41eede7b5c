export { checkStage } from './check.ts';
export { pointOf, type PublishedPoint } from './published-point.ts';
export { windingFor } from './rectifier.ts';
export { askable, type Closer, stageOf, type StageDescription } from './stages.ts';
export { STAGE_KINDS, type StageKind } from './types.ts';
export type {
	Cause,
	Explanation,
	FoundValue,
	Meter,
	MixerQuestion,
	OscillatorPoint,
	PartId,
	PartValue,
	ReadingId,
	RectifierPoint,
	RectifierQuestion,
	StageCurrent,
	StageFinding,
	StageQuestion,
	ValveQuestion,
	Verdict,
	WorkingPoint
} from './types.ts';
