/** A file that was not taken: every problem of it with its field, beside the build that is still open. */
import { useEffect, useRef } from 'react';
import { type Problem, problemParts } from '../../../geometry/build/problem.ts';
import { act } from '../state/action.ts';
import { dismissProblems } from '../state/open.ts';
import { useShop } from '../state/shop.ts';
import './Problems.css';
import { pickFiles } from './pickFiles.ts';

/** As many as the command line lists, and then a count. */
const MOST_LISTED = 50;

export function Problems() {
  const refused = useShop(shop => shop.refused);
  const isOpen = useShop(shop => shop.opened !== null);
  const title = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    if (refused) title.current?.focus();
  }, [refused]);

  if (!refused) return null;
  const { fileName, problems } = refused;
  const more = problems.length - MOST_LISTED;
  return (
    <section className="problems" aria-labelledby="problems-title">
      <h2 id="problems-title" ref={title} tabIndex={-1}>
        {problems.length === 1 ? '1 thing' : `${problems.length.toLocaleString('en-US')} things`} to
        fix in {fileName}.{isOpen && ' The last good build is still here.'}
      </h2>
      <ul>
        {problems.slice(0, MOST_LISTED).map(problem => (
          <Line key={JSON.stringify(problem)} problem={problem} />
        ))}
        {more > 0 && <li>and {more.toLocaleString('en-US')} more</li>}
      </ul>
      <div className="buttons">
        <button type="button" className="button" onClick={pickFiles}>
          Open a file …
        </button>
        <button type="button" className="button" onClick={() => act(dismissProblems)}>
          Put away
        </button>
      </div>
    </section>
  );
}

function Line({ problem }: { problem: Problem }) {
  const { place, what } = problemParts(problem);
  return (
    <li>
      <span className="strong">{place}</span>
      <span className="visually-hidden">: </span>
      <span className="what">{what}</span>
    </li>
  );
}
