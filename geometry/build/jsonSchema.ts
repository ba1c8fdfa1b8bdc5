/** The JSON Schema of the build file, for editors; made from the schema, never written by hand. */
import { z } from 'zod';
import { buildFile } from './schema/file.ts';

/**
 * JSON Schema (draft 2020-12) of a build file as written, as text. `axlewalk.schema.json` beside this file
 * holds it; a test compares the two and rewrites the file under `vitest -u`.
 */
export function jsonSchemaText(): string {
  const schema = z.toJSONSchema(buildFile, { io: 'input', target: 'draft-2020-12' });
  return `${JSON.stringify({ title: 'Axlewalk build', ...schema }, null, 2)}\n`;
}
