import type { MeasureContext } from './measure.ts';

/**
 * Makes a function of a pose's context answer from memory the second time: several measures of one part
 * share one derivation.
 */
export function kept<T>(make: (context: MeasureContext, part: string) => T): typeof make {
  const memory = new WeakMap<MeasureContext, Map<string, T>>();
  return (context, part) => {
    let parts = memory.get(context);
    if (!parts) {
      parts = new Map();
      memory.set(context, parts);
    }
    if (!parts.has(part)) parts.set(part, make(context, part));
    return parts.get(part) as T;
  };
}
