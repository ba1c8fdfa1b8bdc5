/** What is compared with what: A, which stands on the page, and B beside it; each can be chosen, both exchanged. */

import { namesOf } from '../../../geometry/compare/names.ts';
import { capital } from '../frame/variantNames.ts';
import { KeyHint } from '../keyboard/KeyHint.tsx';
import { act } from '../state/action.ts';
import { type Shop, useShop } from '../state/shop.ts';
import './CompareBar.css';
import { endComparing } from './comparing.ts';
import { exchangeBoth } from './exchangeBoth.ts';
import { SideMenu } from './SideMenu.tsx';

export default function CompareBar() {
  const a = useShop(shop => namesOfShop(shop).a);
  const b = useShop(shop => namesOfShop(shop).b);
  return (
    <section className="compare-bar" aria-label="What is compared">
      <div className="compare-side">
        <span className="side-mark a">A</span>
        <SideMenu of="a" name={a} />
      </div>
      <button
        type="button"
        className="button exchange"
        disabled={b === null}
        onClick={exchangeBoth}
      >
        <svg viewBox="0 0 18 14" aria-hidden="true">
          <path d="M4 1 1 4l3 3M1 4h15M14 7l3 3-3 3M17 10H2" />
        </svg>
        Exchange
        <KeyHint command="exchange" />
      </button>
      <div className="compare-side">
        <span className="side-mark b">B</span>
        <SideMenu of="b" name={b ?? 'Choose what to compare with'} />
      </div>
      <Working />
      <button type="button" className="button close-both" onClick={() => act(endComparing)}>
        Close
      </button>
    </section>
  );
}

/** As the sentences call them. */
function namesOfShop({ opened, comparing }: Shop): { a: string; b: string | null } {
  if (!opened) return { a: '', b: null };
  const { build } = opened;
  const other = comparing?.other?.opened.build;
  if (!other) return { a: capital(build.variant ?? build.name), b: null };
  const { a, b } = namesOf(build, other);
  return { a: capital(a), b: capital(b) };
}

const WORDS = {
  range: 'Finding how far both go',
  gaps: 'Checking gaps of both',
  maps: 'Drawing maps of both',
  worth: 'Finding what the differences are worth',
};

function Working() {
  const working = useShop(({ comparing }) => comparing?.compared.working ?? null);
  const failed = useShop(({ comparing }) => comparing?.compared.failed ?? null);
  if (failed !== null) return <p className="compare-working">The comparison stopped: {failed}</p>;
  if (!working) return <span className="compare-working" />;
  return (
    <p className="compare-working">
      {WORDS[working.what]}
      <progress value={working.share} max={1} aria-label={WORDS[working.what]} />
    </p>
  );
}
