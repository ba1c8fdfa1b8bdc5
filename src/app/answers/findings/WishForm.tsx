/** What is wished of the two parts of a finding: another gap between them, or to leave them out, each with a reason. */
import { type FormEvent, useId, useState } from 'react';
import { partWords, sentence } from '../../../../geometry/finding/words.ts';
import type { PairReport } from '../../../../geometry/gap/gapReport.ts';
import { wishPair } from '../../edit/edit.ts';
import { useShop } from '../../state/shop.ts';
import { pageShop } from '../../words/shopWords.ts';
import './WishForm.css';

export function WishForm({ pair }: { pair: PairReport }) {
  const rig = useShop(shop => shop.rig);
  const unit = useShop(shop => shop.look.unit);
  const id = useId();
  const [required, setRequired] = useState('');
  const [why, setWhy] = useState(pair.why ?? '');
  const [problem, setProblem] = useState<string | null>(null);
  if (!rig) return null;
  const shop = pageShop(rig.build, unit);
  const words = [pair.a, pair.b].map(name => partWords(shop, rig.axle, name)).join(', ');
  // of two axles each has a tire that is called alike
  const called = (name: string): string =>
    rig.build.axles.length > 1 ? `${rig.axle.name} ${name}` : name;
  const names = [called(pair.a), called(pair.b)] as const;
  const withReason = (done: (reason: string) => Promise<string | null>): void => {
    const reason = why.trim();
    if (reason === '') setProblem('Say why: the reason stands in the build beside it');
    else void done(reason).then(setProblem);
  };
  const take = (event: FormEvent): void => {
    event.preventDefault();
    const typed = required.trim();
    if (typed === '') setProblem('Write the gap that is wanted, such as 3/4');
    else {
      withReason(reason =>
        wishPair(
          names,
          { kind: 'gap', required: typed, why: reason },
          `${sentence(words)}: ${typed} wanted`,
        ),
      );
    }
  };
  return (
    <form className="wish" onSubmit={take}>
      <label htmlFor={`${id}gap`}>
        <span>Gap wanted</span>
        <input
          id={`${id}gap`}
          className="field"
          value={required}
          placeholder={unit === 'in' ? '3/4' : '20 mm'}
          autoComplete="off"
          onChange={event => setRequired(event.target.value)}
        />
      </label>
      <label htmlFor={`${id}why`} className="wish-why">
        <span>Why</span>
        <input
          id={`${id}why`}
          className="field"
          value={why}
          placeholder="seen on stands, bolted together …"
          autoComplete="off"
          onChange={event => setWhy(event.target.value)}
        />
      </label>
      <button type="submit" className="button">
        Want that gap
      </button>
      <button
        type="button"
        className="quiet"
        title="The pair is not compared any more; it stands in the list of what is left out"
        onClick={() =>
          withReason(reason =>
            wishPair(names, { kind: 'muted', why: reason }, `${sentence(words)}: left out`),
          )
        }
      >
        Leave the pair out
      </button>
      {problem !== null && (
        <p className="wish-problem" role="alert">
          {problem}.
        </p>
      )}
    </form>
  );
}
