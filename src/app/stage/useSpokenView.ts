/** The view in words, for who does not see it: from where, and how the axle stands. Told once it rests. */
import { type RefObject, useEffect } from 'react';
import { travelWords } from '../../../geometry/finding/words.ts';
import type { Rig } from '../state/rig.ts';
import { type Shop, useShop } from '../state/shop.ts';
import { pageShop, steeringWords } from '../words/shopWords.ts';

const REST_ms = 250;

const FROM: Record<Shop['look']['view'], string> = {
  corner: 'seen from a corner',
  front: 'seen from behind, as the driver sits',
  side: 'seen from the driver side',
  top: 'seen from above',
};

/** 'Front axle, seen from above: both wheels 3 up, full left. Arrow keys turn the view, …' */
export function spokenView({ look, shown }: Pick<Shop, 'look' | 'shown'>, rig: Rig): string {
  const { pose } = shown;
  const name = rig.axle.name === 'front' ? 'Front axle' : 'Rear axle';
  const words = pageShop(rig.build, look.unit);
  const steering = pose ? steeringWords(rig, pose) : '';
  const stands = pose
    ? `${travelWords(words, pose.input.left, pose.input.right)}${steering ? `, ${steering}` : ''}`
    : 'it cannot stand there';
  const keys = 'Arrow keys turn the view, with Shift they move it, plus and minus zoom.';
  return `${name}, ${FROM[look.view]}: ${stands}. ${keys}`;
}

export function useSpokenView(rig: Rig, box: RefObject<HTMLElement | null>): void {
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const tell = (): void => {
      box.current?.setAttribute('aria-label', spokenView(useShop.getState(), rig));
    };
    tell();
    const end = useShop.subscribe(
      shop => [shop.shown.pose, shop.look.view, shop.look.unit],
      () => {
        clearTimeout(timer);
        timer = setTimeout(tell, REST_ms);
      },
      { equalityFn: (a, b) => a.every((each, i) => each === b[i]) },
    );
    return () => {
      end();
      clearTimeout(timer);
    };
  }, [rig, box]);
}
