/** The sentence that leads while two axles are compared: the most that B buys, and the most that it costs. */
import { capital } from '../frame/variantNames.ts';
import { useShop } from '../state/shop.ts';
import { Sentence } from '../words/Amount.tsx';
import { piecesOf } from './compareWords.ts';

export function CompareLead() {
  const comparing = useShop(shop => shop.comparing);
  const unit = useShop(shop => shop.look.unit);
  if (!comparing?.other) return <h1 className="lead">Choose what to compare with.</h1>;
  const { report, sentences, stage } = comparing.compared;
  if (!report || !stage) return <h1 className="lead">Setting both side by side.</h1>;
  const lead = (buys: boolean): string | null => {
    const found = sentences[unit].find(each => each.buys === buys);
    return found ? piecesOf(found.text).lead : null;
  };
  const [gain, cost] = [lead(true), lead(false)];
  const [a, b] = [report.a.name, capital(report.b.name)];
  if (gain === null && cost === null) {
    return (
      <h1 className="lead">
        {stage === 'measures' ? `${b} against ${a}.` : 'No difference to take notice of.'}
      </h1>
    );
  }
  const tail = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);
  return (
    <>
      <h1 className="lead compare-lead">
        {b}: <Sentence text={tail(gain ?? cost ?? '')} />.
      </h1>
      {gain !== null && cost !== null && (
        <p className="lead-note">
          It costs: <Sentence text={tail(cost)} />.
        </p>
      )}
    </>
  );
}
