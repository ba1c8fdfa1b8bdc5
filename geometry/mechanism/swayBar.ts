/** Names of the moving parts of a sway bar. */
import type { Side } from '../build/build.ts';

/** The arm of a side, and the end link that moves it. */
export const swayNames = (side: Side): { name: string; link: string } => ({
  name: `${side} sway bar arm`,
  link: `${side} sway bar link`,
});
