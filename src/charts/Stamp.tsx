/**
 * A pose as a stamp: the dot is travel (driver wheel across, passenger wheel up), the mark on the short bar under
 * the grid is the steering, as the driver sits. Any steering: no bar.
 */
import './Stamp.css';

export interface StampProps {
  /** Travel of the driver and of the passenger wheel as shares of what there is, −1 to 1. */
  driver: number;
  passenger: number;
  /** Share of the steering, −1 full right to 1 full left; null where it does not matter. */
  steer: number | null;
}

/** Side of the grid, and how far the dot goes from its middle, px. */
const SIDE = 25;
const REACH = 8;

export function Stamp({ driver, passenger, steer }: StampProps) {
  const middle = 1.5 + SIDE / 2;
  const x = middle + REACH * held(driver);
  const y = middle - REACH * held(passenger);
  const bar = middle - 9.5 * held(steer ?? 0);
  return (
    <svg className="stamp" viewBox="0 0 28 36" width="28" height="36" aria-hidden="true">
      <rect className="stamp-grid" x="1.5" y="1.5" width={SIDE} height={SIDE} rx="3" />
      <path className="stamp-lines" d={`M5 ${middle}H23M${middle} 5V23`} />
      <circle className="stamp-dot" cx={x} cy={y} r="3.6" />
      {steer !== null && (
        <>
          <path className="stamp-bar" d="M3 32.5H25" />
          <rect className="stamp-dot" x={bar - 2.5} y="30" width="5" height="5" />
        </>
      )}
    </svg>
  );
}

const held = (share: number): number => Math.max(-1, Math.min(1, share));
