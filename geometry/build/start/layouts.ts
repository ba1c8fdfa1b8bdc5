/**
 * The layouts that a new build can start from: what holds the axle, what steers it, what stops it. A picture is
 * picked by `id`; everything else here is for the screen or the terminal to say.
 */
import type { AxleName, Side } from '../build.ts';

interface Choice<Id extends string> {
  readonly id: Id;
  /** As it is called in a shop. */
  readonly label: string;
  /** One sentence on what it looks like from below. */
  readonly text: string;
}

export const linkLayouts = [
  {
    id: 'threeLinks',
    label: 'three links and a track bar',
    text: 'Two lower links, one upper link beside the differential, and a bar across that holds the axle sideways.',
  },
  {
    id: 'fourLinks',
    label: 'four links and a track bar',
    text: 'Two lower and two upper links that run fore and aft, and a bar across that holds the axle sideways.',
  },
  {
    id: 'radiusArms',
    label: 'radius arms and a track bar',
    text: 'Two arms, each held to the axle by two bolts and to the frame by one, and a bar across.',
  },
  {
    id: 'triangulated',
    label: 'triangulated four links',
    text: 'Two lower links and two upper links that come together over the axle; no bar across.',
  },
  {
    id: 'wishbone',
    label: 'wishbone and two lower links',
    text: 'Two lower links, and two upper legs that share one ball on top of the axle; no bar across.',
  },
] as const satisfies readonly Choice<string>[];

export type LinkLayoutId = (typeof linkLayouts)[number]['id'];

export const steeringLayouts = [
  {
    id: 'dragLinkToKnuckle',
    label: 'drag link to the knuckle',
    text: 'The drag link runs from the pitman arm to the far knuckle; a tie rod of its own joins both knuckles.',
  },
  {
    id: 'dragLinkToTieRod',
    label: 'drag link to the tie rod',
    text: 'The tie rod joins both knuckles, and the drag link pulls at the tie rod.',
  },
  {
    id: 'tieRodToDragLink',
    label: 'tie rod hung on the drag link',
    text: 'The drag link runs to the far knuckle, and the tie rod hangs on the drag link.',
  },
  {
    id: 'doubleRam',
    label: 'double-ended ram, no drag link',
    text: 'A ram on the axle pushes a tie rod at either end; no steering box.',
  },
] as const satisfies readonly Choice<string>[];

export type SteeringLayoutId = (typeof steeringLayouts)[number]['id'];

export const strapLayouts = [
  { id: 'none', label: 'no limit straps', text: 'Nothing but the shocks holds the axle in droop.' },
  { id: 'both', label: 'a limit strap on each side', text: 'A strap on each side ends the droop.' },
  { id: 'left', label: 'a limit strap on the left', text: 'One strap, on the left side.' },
  { id: 'right', label: 'a limit strap on the right', text: 'One strap, on the right side.' },
] as const satisfies readonly Choice<string>[];

export type StrapLayoutId = (typeof strapLayouts)[number]['id'];

/** What is picked from pictures for one axle. */
export interface AxleChoice {
  name: AxleName;
  links: LinkLayoutId;
  /** Null: the axle does not steer. Only a front axle steers. */
  steering: SteeringLayoutId | null;
  /** A ram from the axle that helps the tie rod; with a double-ended ram there is none. */
  assistRam: boolean;
  straps: StrapLayoutId;
  /** Side on which the differential sits; null: in the middle. */
  differential: Side | null;
}

/** What is picked before anything is taped. */
export interface StartLayout {
  /** One or two, the front axle first. */
  axles: AxleChoice[];
  driverSide: Side;
}

/** Whether a bar across holds the axle sideways. */
export const hasTrackBar = (links: LinkLayoutId): boolean =>
  links === 'threeLinks' || links === 'fourLinks' || links === 'radiusArms';

/** How the upper links are laid: none, one beside the differential, or one on each side. */
export const upperLinks = (links: LinkLayoutId): 'none' | 'one' | 'pair' =>
  links === 'radiusArms' ? 'none' : links === 'threeLinks' ? 'one' : 'pair';

/** A choice with everything that was not picked at what is most common; the driver sits on `driverSide`. */
export function axleChoice(
  name: AxleName,
  picked: Partial<Omit<AxleChoice, 'name'>> = {},
  driverSide: Side = 'left',
): AxleChoice {
  const isFront = name === 'front';
  return {
    name,
    links: isFront ? 'threeLinks' : 'triangulated',
    steering: isFront ? 'dragLinkToKnuckle' : null,
    assistRam: false,
    straps: 'none',
    differential: isFront ? driverSide : null,
    ...picked,
  };
}

/** The layout with that id, or null. */
export function choiceOf<const T extends readonly Choice<string>[]>(
  choices: T,
  id: string,
): T[number] | null {
  return choices.find(each => each.id === id) ?? null;
}
