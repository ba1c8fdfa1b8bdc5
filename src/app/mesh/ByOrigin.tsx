/** Where a mesh lies by its file's origin and axes. */
import { FILE_AXES, type FileAxis } from '../../../geometry/build/meshPart.ts';

export interface Origin {
  /** As typed: forward, to the left, up. */
  at: [string, string, string];
  /** Which of the file's axes point forward and up. */
  forward: FileAxis;
  up: FileAxis;
}

export const UNIT_WORDS = { in: 'inches', mm: 'millimeters' } as const;

const POINT_WORDS = ['Fore and aft', 'Sideways', 'Height'] as const;

interface ByOriginProps {
  origin: Origin;
  unit: 'in' | 'mm';
  change(origin: Origin): void;
}

export function ByOrigin({ origin, unit, change }: ByOriginProps) {
  const { at } = origin;
  return (
    <>
      <p className="note">
        Where the file’s origin lies, as other points of the build are typed, in {UNIT_WORDS[unit]}:
        + is forward, to the left and up, from the floor under the front axle.
      </p>
      <div className="mesh-fields three">
        {POINT_WORDS.map((words, i) => (
          <label key={words}>
            <span className="mesh-label">{words}</span>
            <input
              className="field"
              value={at[i]}
              placeholder="0"
              autoComplete="off"
              onChange={event =>
                change({ ...origin, at: at.with(i, event.target.value) as Origin['at'] })
              }
            />
          </label>
        ))}
      </div>
      <div className="mesh-fields">
        {(['forward', 'up'] as const).map(way => (
          <label key={way}>
            <span className="mesh-label">
              {way === 'forward' ? 'Forward in the file' : 'Up in the file'}
            </span>
            <select
              className="field"
              value={origin[way]}
              onChange={event => change({ ...origin, [way]: event.target.value as FileAxis })}
            >
              {FILE_AXES.map(axis => (
                <option key={axis} value={axis}>
                  {axis.toUpperCase().replace('-', '−')}
                </option>
              ))}
            </select>
          </label>
        ))}
      </div>
    </>
  );
}
