/** The guide: its pages beside their list. Fetched when it is first opened. */
import pages from 'virtual:guide';
import { type MouseEvent, useEffect, useRef } from 'react';
import { Over } from '../frame/Over.tsx';
import './Guide.css';
import { useGuide } from './openGuide.ts';

export default function Guide() {
  const name = useGuide(({ page }) => page);
  const article = useRef<HTMLElement>(null);
  const isFirst = useRef(true);
  const page = pages.find(each => each.name === name) ?? pages[0];
  // biome-ignore lint/correctness/useExhaustiveDependencies: another page is read from its top
  useEffect(() => {
    article.current?.scrollTo(0, 0);
    article.current?.closest('.over-body')?.scrollTo(0, 0);
    if (!isFirst.current) article.current?.focus();
    isFirst.current = false;
  }, [name]);
  const goTo = (to: string): void => useGuide.setState({ page: to });
  const follow = (event: MouseEvent): void => {
    const link = event.target instanceof Element ? event.target.closest('a') : null;
    const to = link?.getAttribute('href')?.replace('#', '');
    if (to === undefined) return;
    event.preventDefault();
    goTo(to);
  };
  return (
    <Over title="Guide" isWide>
      <div className="guide">
        <nav aria-label="Pages of the guide">
          <ol>
            {pages.map(each => (
              <li key={each.name}>
                <button
                  type="button"
                  className="guide-page"
                  aria-current={each === page ? 'page' : undefined}
                  onClick={() => goTo(each.name)}
                >
                  {each.name === 'README' ? 'Where to begin' : each.title}
                </button>
              </li>
            ))}
          </ol>
        </nav>
        {page && (
          // biome-ignore lint/a11y/useKeyWithClickEvents: its links are pressed by keys, and that is a click
          <article
            ref={article}
            // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, and by keys only where it can be focused
            tabIndex={0}
            aria-label={page.title}
            onClick={follow}
            // biome-ignore lint/security/noDangerouslySetInnerHtml: our own pages, rendered when this one was built
            dangerouslySetInnerHTML={{ __html: page.html }}
          />
        )}
      </div>
    </Over>
  );
}
