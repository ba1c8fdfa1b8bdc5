/**
 * Makes a function of a pose's context answer from memory the second time: several measures of one part
 * share one derivation.
 */
export function kept<C extends object, T>(make: (context: C, part: string) => T): typeof make {
  const memory = new WeakMap<C, Map<string, T>>();
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
