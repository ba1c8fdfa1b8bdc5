/** The sway bar: from the file to the Build. */
import { add, dot, scale, sub } from '../../vector.ts';
import type { Side, SwayBar } from '../build.ts';
import type { EvaluatedFile } from '../schema/file.ts';
import { type Context, settingOf } from './context.ts';

type AxleFile = EvaluatedFile['axles'][number];
type ArmFile = NonNullable<AxleFile['swayBar']>['arms'][number];
type EndLinkFile = NonNullable<AxleFile['swayBar']>['endLinks'][number];

/** Names the points of the sway bar: `sway bar.axis`, `.left tip`, `.left axle` …; `bar` is its name. */
export function addSwayBar(axle: AxleFile, path: string, bar: string, context: Context): void {
  const { swayBar } = axle;
  if (!swayBar) return;
  const at = `${path}.swayBar`;
  const chassis = settingOf('chassis', axle.name, null, `${at}.axis.at`);
  context.places.add(`${bar}.axis`, swayBar.axis.at, chassis);
  swayBar.arms.forEach((arm, i) => {
    for (const { side, image } of sidesOf(arm)) {
      const setting = settingOf('chassis', axle.name, image, `${at}.arms[${i}].tip`);
      context.places.add(`${bar}.${side} tip`, arm.tip, setting);
    }
  });
  swayBar.endLinks.forEach((link, i) => {
    for (const { side, image } of sidesOf(link)) {
      const setting = settingOf('axle', axle.name, image, `${at}.endLinks[${i}].axle`);
      context.places.add(`${bar}.${side} axle`, link.axle, setting);
    }
  });
}

export function makeSwayBar(
  axle: AxleFile,
  path: string,
  bar: string,
  context: Context,
): SwayBar | null {
  const { swayBar } = axle;
  if (!swayBar) return null;
  const at = `${path}.swayBar`;
  for (const key of ['arms', 'endLinks'] as const) {
    const parts: readonly (ArmFile | EndLinkFile)[] = swayBar[key];
    const sides = parts.flatMap(part => sidesOf(part));
    if (sides.length !== 2 || sides[0]?.side === sides[1]?.side) {
      context.misnamed(`${at}.${key}`, null, '', 'one with "sides": "mirror", or two with "side"');
    }
  }
  const setting = settingOf('chassis', axle.name, null, `${at}.axis.direction`);
  const root = context.places.at(`${bar}.axis`);
  const direction = context.direction(swayBar.axis.direction, setting);
  const arms = (['left', 'right'] as const).map(side => ({
    side,
    tip: context.places.at(`${bar}.${side} tip`),
    axle: context.places.at(`${bar}.${side} axle`),
  }));
  for (const arm of arms) {
    const foot = add(root, scale(direction, dot(sub(arm.tip, root), direction)));
    context.apart(foot, arm.tip, `${at}.arms`, "an arm's tip and the bar's axis");
    context.apart(arm.tip, arm.axle, `${at}.endLinks`, 'both ends of an end link');
  }
  return {
    axis: { at: root, direction },
    arms,
    tubeOd: swayBar.tube?.od ?? null,
  };
}

function sidesOf(part: ArmFile | EndLinkFile): { side: Side; image: Side | null }[] {
  if (part.sides === 'mirror') {
    return (['left', 'right'] as const).map(side => ({ side, image: side }));
  }
  return part.side ? [{ side: part.side, image: null }] : [];
}
