import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { jsonSchemaText } from '../../geometry/build/jsonSchema.ts';

const path = fileURLToPath(new URL('../../geometry/build/axlewalk.schema.json', import.meta.url));

test('the JSON Schema for editors is current (after a change of the schema: vitest -u)', async () => {
  await expect(jsonSchemaText()).toMatchFileSnapshot(path);
});
