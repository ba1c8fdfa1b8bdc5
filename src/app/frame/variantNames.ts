/** Variants of what is open, as they are offered. */
import type { Shop } from '../state/shop.ts';

/** What the base is called where variants stand beside it. */
export const BASE = 'As drawn';

/** Names of the variants of the open build, in the order of the file. */
export const variantNames = ({ opened }: Shop): readonly string[] =>
  opened?.file.variants?.map(({ name }) => name) ?? NONE;

const NONE: readonly string[] = [];

/** 'short arms' → 'Short arms': as a name stands by itself. */
export const capital = (name: string): string => name.charAt(0).toUpperCase() + name.slice(1);
