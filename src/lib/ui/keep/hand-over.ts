/** How a file leaves the page: saved by the browser, or given to another app of the device. */

const plain = (title: string): string =>
	title
		.toLowerCase()
		.replace(/[^a-z0-9]+/g, '-')
		.replace(/^-|-$/g, '')
		.slice(0, 60);

/** `table-set-green-dial.valvetrail.json` */
export const fileName = (title: string): string => `${plain(title) || 'job'}.valvetrail.json`;

export function saveFile(file: Blob, name: string): void {
	const link = document.createElement('a');
	link.href = URL.createObjectURL(file);
	link.download = name;
	link.click();
	// The browser has begun to read it long before.
	setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

/** The file as this browser can share it, or nothing. Some share no JSON: it goes as text, and is taken in as well. */
export function shareable(file: Blob, name: string): File | undefined {
	const kinds = [
		new File([file], name, { type: 'application/json' }),
		new File([file], `${name}.txt`, { type: 'text/plain' })
	];
	const can = navigator.canShare?.bind(navigator);
	return kinds.find((one) => can?.({ files: [one] }));
}

/** True once it was shared; false where the sheet was closed. */
export async function share(file: File): Promise<boolean> {
	try {
		await navigator.share({ files: [file] });
		return true;
	} catch (cause) {
		if (cause instanceof DOMException && ['AbortError', 'NotAllowedError'].includes(cause.name)) return false;
		throw cause;
	}
}
