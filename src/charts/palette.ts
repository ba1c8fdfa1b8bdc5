/** The page's colors as a canvas needs them, read from the sheet's variables once for each change of theme. */
export interface Palette {
  page: string;
  sheet: string;
  raise: string;
  ink: string;
  ink2: string;
  ink3: string;
  edge: string;
  line: string;
  dye: string;
  onDye: string;
  /** Between two lines that are compared. */
  shade: string;
  touch: string;
  onTouch: string;
  /** The gap scale, from overlap over 1/4 in to over four times what is wanted. */
  gaps: readonly string[];
  /** Of measures, from least to greatest. */
  measures: readonly string[];
  /** Of differences, from much less to much more; the middle one is alike. */
  differences: readonly string[];
  /** Families of fonts, as `font` of a canvas takes them. */
  font: string;
}

const GAP_TOKENS = ['deep', 'touch', 'half', 'short', 'wanted', 'double', 'far'] as const;
/** Steps of a measure's own scale. */
export const MEASURE_STEPS = 9;

/** Steps of a difference: four of less, one of none, four of more. */
export const DIFFERENCE_STEPS = 9;

/** Reads the palette that holds for an element. */
export function readPalette(element: Element): Palette {
  const style = getComputedStyle(element);
  const read = (name: string): string => style.getPropertyValue(`--${name}`).trim();
  return {
    page: read('page'),
    sheet: read('sheet'),
    raise: read('raise'),
    ink: read('ink'),
    ink2: read('ink2'),
    ink3: read('ink3'),
    edge: read('edge'),
    line: read('line'),
    dye: read('dye'),
    onDye: read('on-dye'),
    shade: read('dye-wash'),
    touch: read('touch'),
    onTouch: read('on-touch'),
    gaps: GAP_TOKENS.map(name => read(`gap-${name}`)),
    measures: Array.from({ length: MEASURE_STEPS }, (_, i) => read(`measure-${i + 1}`)),
    differences: Array.from({ length: DIFFERENCE_STEPS }, (_, i) => read(`difference-${i + 1}`)),
    font: read('font'),
  };
}
