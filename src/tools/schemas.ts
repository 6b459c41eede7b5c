import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { format, resolveConfig } from 'prettier';
import { jsonSchemas } from '../lib/job/json-schemas.ts';
import type { Io } from './io.ts';

/** Where the JSON Schemas stand, as the first line of each file of the library names them. */
export const SCHEMA_FOLDER = 'static/schemas';

/** `flow -- schemas`: write the JSON Schemas anew, laid out as every other file of the project. */
export async function writeSchemas(root: string, io: Io): Promise<number> {
	const folder = join(root, SCHEMA_FOLDER);
	mkdirSync(folder, { recursive: true });
	for (const [name, schema] of Object.entries(jsonSchemas())) {
		const file = join(folder, `${name}.json`);
		const options = { ...(await resolveConfig(file)), filepath: file };
		writeFileSync(file, await format(JSON.stringify(schema), options));
		io.out(`${SCHEMA_FOLDER}/${name}.json`);
	}
	return 0;
}
