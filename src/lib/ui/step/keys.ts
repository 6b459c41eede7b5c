/** What of a key press matters to a shortcut. */
export type KeyPress = Pick<
	KeyboardEvent,
	| 'key'
	| 'ctrlKey'
	| 'altKey'
	| 'metaKey'
	| 'shiftKey'
	| 'repeat'
	| 'isComposing'
	| 'defaultPrevented'
	| 'target'
>;

/** Inputs that take no letters or digits: a shortcut works from there. */
const NO_TEXT = ['button', 'checkbox', 'radio', 'submit', 'reset', 'image', 'file', 'range', 'color'];

/** Whether letters typed here go into a field. */
export function takesText(target: EventTarget | null): boolean {
	const { tagName = '', type = '', isContentEditable } = (target ?? {}) as Partial<HTMLInputElement>;
	if (tagName === 'INPUT') return !NO_TEXT.includes(type);
	return tagName === 'TEXTAREA' || tagName === 'SELECT' || isContentEditable === true;
}

/** A key held down counts once: else it would answer the next question too. */
const isShortcut = (press: KeyPress): boolean =>
	!(press.ctrlKey || press.altKey || press.metaKey) &&
	!(press.repeat || press.isComposing || press.defaultPrevented) &&
	!takesText(press.target);

/** The digit, where the press is a shortcut. Some keyboards reach digits by Shift only. */
export const digitOf = (press: KeyPress): number | undefined =>
	isShortcut(press) && /^\d$/.test(press.key) ? Number(press.key) : undefined;

/** Whether the press is this letter, as a shortcut. */
export const isLetter = (press: KeyPress, letter: string): boolean =>
	isShortcut(press) && !press.shiftKey && press.key.toLowerCase() === letter;
