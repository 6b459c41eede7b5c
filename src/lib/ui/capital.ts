/** With a capital letter at the front, save where the first word is the name of a site. */
export const capital = (words: string): string =>
	/^\S+\.[a-z]/.test(words) ? words : words.charAt(0).toUpperCase() + words.slice(1);
