import type { Component, ComponentProps } from 'svelte';
import { render } from 'svelte/server';

type AnyProps = ComponentProps<Component>;

/** Markup of a component, without the marks that Svelte leaves for the browser. */
export const markup = <Props extends AnyProps>(
	of: Component<Props, object, keyof Props | ''>,
	props: NoInfer<Props>
): string =>
	render(of as Component<AnyProps>, { props })
		.body.replace(/<!--.*?-->/g, '')
		.replace(/\s+/g, ' ');

/** Only its words. */
export const words = <Props extends AnyProps>(
	of: Component<Props, object, keyof Props | ''>,
	props: NoInfer<Props>
): string =>
	markup(of, props)
		.replace(/<[^>]*>/g, ' ')
		.replace(/\s+/g, ' ');
