import { browser } from '$app/environment';

/** What Chromium sends where the app may be put among the programs of the device; other browsers know nothing of it. */
interface InstallOffer extends Event {
	prompt(): Promise<unknown>;
}

class Install {
	#offer = $state.raw<InstallOffer>();

	get offered(): boolean {
		return this.#offer !== undefined;
	}

	/** The browser sends it once, on whatever page is open. */
	keep(offer: Event): void {
		// Our own button asks, not a bar of the browser.
		offer.preventDefault();
		this.#offer = offer as InstallOffer;
	}

	/** An offer can be taken up once. */
	async take(): Promise<void> {
		const offer = this.#offer;
		this.#offer = undefined;
		await offer?.prompt();
	}

	done(): void {
		this.#offer = undefined;
	}
}

export const install = new Install();

if (browser) {
	addEventListener('beforeinstallprompt', (event) => install.keep(event));
	addEventListener('appinstalled', () => install.done());
}
