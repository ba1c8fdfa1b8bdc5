/** Pairs that are not compared, with the reason: muted in the build, made to meet, or riding on one body. */
import { partWords, sentence } from '../../../../geometry/finding/words.ts';
import type { ExcludedReport } from '../../../../geometry/gap/gapReport.ts';
import { wishPair } from '../../edit/edit.ts';
import { useShop } from '../../state/shop.ts';
import { pageShop } from '../../words/shopWords.ts';

/** Whether a name in the file is that of a part, or of the whole that it is a piece of. */
const isNamed = (written: string, part: string, axle: string): boolean =>
  written === part || written === `${axle} ${part}`;

export function NotCompared() {
  const rig = useShop(shop => shop.rig);
  const unit = useShop(shop => shop.look.unit);
  const gaps = useShop(shop => shop.results.gaps);
  if (!rig || !gaps) {
    return <p className="note sheet-note">Told as soon as the first pairs are checked.</p>;
  }
  const shop = pageShop(rig.build, unit);
  const words = (name: string): string =>
    name === 'chassis' ? 'frame' : partWords(shop, rig.axle, name);
  const isMuted = ({ why }: ExcludedReport): boolean => why.startsWith('muted: ');
  const title = (each: ExcludedReport): string =>
    each.a === each.b
      ? `Parts on the ${words(each.a)}`
      : sentence(`${words(each.a)}, ${words(each.b)}`);
  const muted = gaps.excluded.filter(isMuted);
  const others = gaps.excluded.filter(each => !isMuted(each));
  const count = gaps.excluded.reduce((sum, each) => sum + each.count, 0);
  // what the build itself leaves out can be taken back; what meets by design can't
  const wishOf = ({ a, b }: ExcludedReport) =>
    rig.build.wanted.muted.find(({ pair }) =>
      [
        [a, b],
        [b, a],
      ].some(names => names.every((name, i) => isNamed(pair[i as 0], name, rig.axle.name))),
    );
  const compareAgain = (each: ExcludedReport): void => {
    const wish = wishOf(each);
    if (wish) void wishPair(wish.pair, { kind: 'none' }, `${title(each)}: compared again`);
  };
  const list = (rows: readonly ExcludedReport[]) => (
    <ul className="reasons">
      {rows.map(each => (
        <li key={`${each.a}|${each.b}|${each.why}`}>
          <span>{title(each)}</span>
          <span>{each.why.replace(/^muted: /, '')}</span>
          <span>
            {wishOf(each) ? (
              <button
                type="button"
                className="quiet reasons-back"
                onClick={() => compareAgain(each)}
              >
                Compare again
              </button>
            ) : each.count === 1 ? (
              '1 pair'
            ) : (
              `${each.count.toLocaleString('en-US')} pairs`
            )}
          </span>
        </li>
      ))}
    </ul>
  );
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, and by keys only where it can be focused
    <div className="left-out" tabIndex={0}>
      <p className="note">
        {gaps.parts} parts make {((gaps.parts * (gaps.parts - 1)) / 2).toLocaleString('en-US')}{' '}
        pairs. {count.toLocaleString('en-US')} of them are not compared; nothing here says anything
        of those.
      </p>
      {muted.length > 0 && <h3>Muted, or made to meet</h3>}
      {list(muted)}
      {others.length > 0 && <h3>Never move against each other</h3>}
      {list(others)}
    </div>
  );
}
