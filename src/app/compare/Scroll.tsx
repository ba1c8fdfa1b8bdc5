/** A part of the page that scrolls, by keys too. */
import type { ReactNode } from 'react';

export interface ScrollProps {
  label: string;
  className?: string;
  children: ReactNode;
}

export function Scroll({ label, className = 'compared-scroll', children }: ScrollProps) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: arrow keys scroll it
    <section className={className} aria-label={label} tabIndex={0}>
      {children}
    </section>
  );
}
