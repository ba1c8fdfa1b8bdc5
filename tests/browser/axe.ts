/** axe's rules on a page as it stands. */
import axe from 'axe-core';
import type { Page } from 'playwright-core';

/** Serious and critical violations, as lines. */
export async function violations(page: Page): Promise<string[]> {
  // as a debugger does, past the content policy; the page itself may not
  await page.evaluate(axe.source);
  return page.evaluate(async () => {
    const { axe: runner } = window as unknown as { axe: typeof axe };
    const { violations: found } = await runner.run(document, {
      resultTypes: ['violations'],
    });
    return found
      .filter(({ impact }) => impact === 'serious' || impact === 'critical')
      .flatMap(({ id, nodes }) =>
        nodes.map(({ target, failureSummary }) => `${id} ${target} ${failureSummary}`),
      );
  });
}
