/** The colors of canvases, read again when the page turns light or dark. */
import { useMemo } from 'react';
import { type Palette, readPalette } from '../../charts/palette.ts';
import { useTheme } from '../words/useTheme.ts';

const read = new Map<string, Palette>();

/** Those of a theme, read once from the page while it shows that theme. */
function paletteOf(theme: string): Palette {
  const palette = read.get(theme) ?? readPalette(document.documentElement);
  read.set(theme, palette);
  return palette;
}

export function usePalette(): Palette {
  const theme = useTheme();
  return useMemo(() => paletteOf(theme), [theme]);
}
