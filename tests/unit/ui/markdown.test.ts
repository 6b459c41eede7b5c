import { render } from 'svelte/server';
import { describe, expect, test } from 'vitest';
import Markdown from '../../../src/lib/ui/Markdown.svelte';

/** Markup of a text, without the marks that Svelte leaves for the browser. */
const shown = (text: string) =>
	render(Markdown, { props: { text } })
		.body.replace(/<!--.*?-->/g, '')
		.replace(/\s+/g, ' ')
		.trim();

describe('writing that is shown as it is meant', () => {
	test.each([
		['Lift *one* end.', '<p>Lift <em>one</em> end.</p>'],
		['**Never** with `2k2`.', '<p><strong>Never</strong> with <code>2k2</code>.</p>'],
		['[sheet](https://a.example/x)', '<p><a href="https://a.example/x" rel="noreferrer">sheet</a></p>'],
		['3 \\* 4 is 12', '<p>3 * 4 is 12</p>'],
		['HT < 200 V & falling', '<p>HT &lt; 200 V &amp; falling</p>']
	])('%s', (text, html) => expect(shown(text)).toBe(html));

	test('a list', () => expect(shown('- gram\n- radio')).toBe('<ul><li>gram</li><li>radio</li></ul>'));
	test('a numbered list keeps its first number', () =>
		expect(shown('3. lift\n4. measure')).toMatch(/^<ol start="3"><li>/));
	test('a table', () =>
		expect(shown('|V|mA|\n|-|-|\n|60|50|')).toMatch(/<th scope="col">V<\/th>.*<td>50<\/td>/));
});

describe('writing that a browser could run stays text', () => {
	test.each([
		'<script>alert(1)</script>',
		'a <img src=x onerror=alert(1)> b',
		'[x](javascript:alert(1))',
		'[x](data:text/html,alert)',
		'![x](https://a.example/x.png)',
		'<b onclick="a()">x</b>'
	])('%s', (text) => {
		expect(shown(text)).not.toMatch(/<(?!\/?p>)/);
	});

	test('an address that leaves the app without saying so is no link', () => {
		expect(shown('[x](//a.example/x)')).not.toContain('<a');
		expect(shown('[x](/\\a.example)')).not.toContain('<a');
	});
});
