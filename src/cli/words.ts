/** Numbers, sides and limits in the words of the shop. */
import type { Build, Side } from '../../geometry/build/build.ts';
import { formatLength } from '../../geometry/build/format.ts';
import type { PoseReport, SteerValue } from '../../geometry/cycle/poseReport.ts';
import { seat } from '../../geometry/finding/words.ts';
import type { EndId } from '../../geometry/limit/limit.ts';
import { limits } from '../../geometry/limit/list.ts';

export type LengthUnit = Build['unit'];

/** A length that was entered: as a fraction where it is one of the tape, else in thousandths. */
export function entered(inches: number, unit: LengthUnit): string {
  const size = Math.abs(inches);
  if (size > 1e6) return `${inches.toPrecision(4)} in`;
  if (unit === 'mm') return `${formatLength(inches, { unit })} mm`;
  const sixtyFourths = inches * 64;
  return Math.abs(sixtyFourths - Math.round(sixtyFourths)) < 1e-6
    ? formatLength(inches, { unit, denominator: 64 })
    : trimmed(inches, 3);
}

/** A number with at most this many decimals, without zeros at its end. */
export function trimmed(value: number, decimals: number): string {
  return String(Number(value.toFixed(decimals)) + 0);
}

/** A number with just this many decimals; one that rounds to zero has no sign. */
export function fixed(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace('-', '') : text;
}

/** '5 up', '2 1/4 down', 'at ride height'. */
export function rise(inches: number, unit: LengthUnit): string {
  if (inches === 0) return 'at ride height';
  return `${entered(Math.abs(inches), unit)} ${inches > 0 ? 'up' : 'down'}`;
}

/** 'driver wheel 5 up, passenger wheel 2 1/4 down', 'both wheels 5 up'. */
export function travel(
  build: Pick<Build, 'driverSide' | 'unit'>,
  { left, right }: { left: number; right: number },
): string {
  if (left === right) return `both wheels ${rise(left, build.unit)}`;
  const words = (side: Side, inches: number): string =>
    `${seat(build, side)} wheel ${rise(inches, build.unit)}`;
  const of = { left: words('left', left), right: words('right', right) };
  return build.driverSide === 'left' ? `${of.left}, ${of.right}` : `${of.right}, ${of.left}`;
}

/** 'pitman arm 20° to the left', 'ram rod 1 1/2 to the right', 'wheels straight ahead'. */
export function steering(steer: SteerValue, unit: LengthUnit): string {
  if (steer.value === 0) return 'wheels straight ahead';
  const size = Math.abs(steer.value);
  const way = steer.value > 0 ? 'left' : 'right';
  return steer.unit === 'deg'
    ? `pitman arm ${trimmed(size, 2)}° to the ${way}`
    : `ram rod ${entered(size, unit)} to the ${way}`;
}

/** The pose of a report in one line. */
export function poseWords(
  build: Pick<Build, 'driverSide' | 'unit'>,
  { travel_in, steer }: Pick<PoseReport, 'travel_in' | 'steer'>,
): string {
  const where = travel(build, travel_in);
  return steer ? `${where}, ${steering(steer, build.unit)}` : where;
}

/** As `fixed`; what runs off towards infinity (a center of parallel lines) only by its size. */
const digits = (value: number, decimals: number): string =>
  Math.abs(value) < 1e4 ? fixed(value, decimals) : value.toExponential(1);

/** A value of a measure or limit with its unit: '12.30°', '3/4 in', '45.0 %', '171 lbf'. */
export function quantity(value: number, unit: string, lengths: LengthUnit): string {
  switch (unit) {
    case 'deg':
      return `${fixed(value, 2)}°`;
    case 'in':
      return lengths === 'mm'
        ? `${digits(value * 25.4, 1)} mm`
        : `${digits(value, Math.abs(value) < 10 ? 3 : 2)} in`;
    case '%':
      return `${fixed(value, 1)} %`;
    case 'lbf':
    case 'in·lbf':
      return `${fixed(value, 0)} ${unit}`;
    case 'ft':
      return `${digits(value, 1)} ft`;
    case 'deg/deg':
      return `${fixed(value, 3)} °/°`;
    case '1':
      return fixed(value, 3);
    default:
      return `${fixed(value, 3)} ${unit}`;
  }
}

/** What ends a travel or is broken, in shop English. */
export function limitLabel(id: EndId): string {
  if (id === 'noPose') return 'the links reach no further';
  if (id === 'assumedTravel') return 'nothing stops it: assumed travel';
  return limits.find(limit => limit.id === id)?.label ?? id;
}

/** '1 link', '3 links'. */
export function several(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}
