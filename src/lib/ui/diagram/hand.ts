/** Fingers on a sheet: one moves it, two zoom it, a short one marks a place. Pure, so that a test can play it. */

interface Point {
	left: number;
	top: number;
}

export type Touch =
	| { kind: 'move'; by: Point }
	| { kind: 'zoom'; factor: number; about: Point; by: Point }
	| { kind: 'tap'; at: Point };

/** A finger that has moved less than this, in pixels, has tapped. */
const STILL = 8;

const middle = (points: readonly Point[]): Point => ({
	left: points.reduce((sum, { left }) => sum + left, 0) / points.length,
	top: points.reduce((sum, { top }) => sum + top, 0) / points.length
});
const apart = ([one, other]: readonly Point[]): number =>
	one && other ? Math.hypot(one.left - other.left, one.top - other.top) : 0;

export class Hand {
	#fingers = new Map<number, Point>();
	/** How far any finger has come since the first went down. */
	#travelled = 0;
	#several = false;

	get down(): boolean {
		return this.#fingers.size > 0;
	}

	press(id: number, at: Point): void {
		if (!this.down) [this.#travelled, this.#several] = [0, false];
		this.#fingers.set(id, at);
		if (this.#fingers.size > 1) this.#several = true;
	}

	move(id: number, at: Point): Touch | undefined {
		const before = this.#fingers.get(id);
		if (!before) return undefined;
		const [was, wasApart] = [middle([...this.#fingers.values()]), apart([...this.#fingers.values()])];
		this.#fingers.set(id, at);
		this.#travelled += Math.hypot(at.left - before.left, at.top - before.top);
		const points = [...this.#fingers.values()];
		const now = middle(points);
		const by = { left: now.left - was.left, top: now.top - was.top };
		if (points.length > 1 && wasApart > 0)
			return { kind: 'zoom', factor: apart(points) / wasApart, about: now, by };
		return this.#travelled >= STILL ? { kind: 'move', by } : undefined;
	}

	lift(id: number, at: Point): Touch | undefined {
		if (!this.#fingers.delete(id)) return undefined;
		return !this.down && !this.#several && this.#travelled < STILL ? { kind: 'tap', at } : undefined;
	}

	cancel(id: number): void {
		this.#fingers.delete(id);
		this.#travelled = STILL;
	}
}
