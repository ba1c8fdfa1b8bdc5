/** The flat cut through the tightest spot, set into the stage. */
export function SectionInset() {
  return null;
}
