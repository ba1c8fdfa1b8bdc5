/** What stands near the axle and could be struck: each is drawn where such a thing usually is, until it is taped. */
import type { Start } from '../../../geometry/build/start/answers.ts';
import { surroundings } from '../../../geometry/build/start/surroundings.ts';
import { sentence } from '../../../geometry/finding/words.ts';
import { changeStart } from './takeStart.ts';

interface NearProps {
  start: Start;
  onStep: (by: 1 | -1) => void;
}

/** What a build has that nobody asked. */
const USUAL: readonly string[] = surroundings.filter(({ isUsual }) => isUsual).map(({ id }) => id);

export function NearQuestion({ start, onStep }: NearProps) {
  const names = start.layout.axles.map(({ name }) => name);
  const offered = surroundings.filter(({ axle }) => axle === 'either' || names.includes(axle));
  const near = start.near ?? USUAL;
  const toggle = (id: string, label: string): void => {
    const isNear = near.includes(id);
    void changeStart(`${sentence(label)}: ${isNear ? 'not there' : 'there'}`, now => {
      const list = now.near ?? USUAL;
      return { ...now, near: isNear ? list.filter(each => each !== id) : [...list, id] };
    });
  };
  return (
    <div className="question">
      <div className="question-body">
        <h3>What stands near the axle, and could be struck?</h3>
        <p className="question-hint">
          Each is put where such a thing usually is, off by inches. What to tape next tells which of
          them decide something.
        </p>
        <ul className="near">
          {offered.map(({ id, label }) => (
            <li key={id}>
              <label>
                <input
                  type="checkbox"
                  checked={near.includes(id)}
                  onChange={() => toggle(id, label)}
                />
                {sentence(label)}
              </label>
            </li>
          ))}
        </ul>
      </div>
      <div className="question-buttons">
        <button type="button" className="button" onClick={() => onStep(-1)}>
          Back
        </button>
        <button type="button" className="button primary" onClick={() => onStep(1)}>
          What to tape next
        </button>
      </div>
    </div>
  );
}
