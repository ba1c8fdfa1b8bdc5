/** Below the axle: findings, charts and parts, beside the numbers at the handle. */
import { useShop } from '../state/shop.ts';

export function Answers() {
  const findings = useShop(shop => shop.results.findings);
  return (
    <div className="answers">
      <section className="sheet" aria-label="Findings">
        <ol>
          {findings.map(({ kind, text }) => (
            <li key={text} data-kind={kind}>
              {text}
            </li>
          ))}
        </ol>
      </section>
      <section className="here" aria-label="Numbers here" />
    </div>
  );
}
