/** The sentence that leads after a change of the build: what it did where it matters most. */
import { lengthWords } from '../../../geometry/finding/words.ts';
import { useDid } from '../answers/did/useDid.ts';
import { undo } from '../edit/edit.ts';
import { act } from '../state/action.ts';
import { putDidAway } from '../state/did.ts';
import { useShop } from '../state/shop.ts';
import { Sentence } from '../words/Amount.tsx';
import { countWords, didLead } from '../words/didWords.ts';
import { pageShop } from '../words/shopWords.ts';

export function DidLead() {
  const did = useDid();
  const unit = useShop(shop => shop.look.unit);
  if (!did) return null;
  const shop = pageShop(did.rig.build, unit);
  const { before, amount, isTouch } = didLead(shop, did.rig.axle, did);
  return (
    <>
      <h1 className="lead">
        {did.isFinal ? (
          <>
            {before}
            {amount !== null && (
              <>
                {' '}
                <span className={isTouch ? 'lead-amount touch' : 'lead-amount gain'}>
                  <Sentence text={`${lengthWords(shop, amount)}.`} />
                </span>
              </>
            )}
          </>
        ) : (
          'Checking what it did.'
        )}
      </h1>
      <p className="lead-note">
        {did.steps.map(step => (
          <Sentence key={step} text={`${step}. `} />
        ))}
        {did.isFinal && countWords(did)}
      </p>
      {!did.isStepBack && (
        <div className="lead-buttons">
          <button type="button" className="button primary" onClick={() => act(putDidAway)}>
            Keep it
          </button>
          <button type="button" className="button" onClick={() => void undo()}>
            Put back
          </button>
        </div>
      )}
    </>
  );
}
