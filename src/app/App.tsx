/** The page: its zones, and what keeps them going. */
import { useEffect } from 'react';
import { Answers } from './answers/Answers.tsx';
import { Drive } from './drive/Drive.tsx';
import { TopBar } from './frame/TopBar.tsx';
import './layout.css';
import { Stage } from './stage/Stage.tsx';
import { act } from './state/action.ts';
import { FIRST_EXAMPLE, loadExample } from './state/examples.ts';
import { offerHook } from './state/hook.ts';
import { openDocument } from './state/open.ts';
import { followStudy } from './state/study.ts';
import { Walk } from './walk/Walk.tsx';

export function App() {
  useEffect(() => {
    offerHook();
    const end = followStudy();
    let isGone = false;
    void loadExample(FIRST_EXAMPLE).then(document => {
      if (!isGone) act(openDocument, document);
    });
    return () => {
      isGone = true;
      end();
    };
  }, []);

  return (
    <div className="page">
      <TopBar />
      <Drive />
      <main className="main">
        <Stage />
        <Answers />
      </main>
      <Walk />
    </div>
  );
}
