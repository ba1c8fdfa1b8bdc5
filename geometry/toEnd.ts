/** Work that stops now and then so that others get their turn, done in one go. */
export function toEnd<Result>(steps: Generator<unknown, Result>): Result {
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
}
