/** The page: its zones, and what keeps them going. */
import { useEffect } from 'react';
import { Answers } from './answers/Answers.tsx';
import { Beside } from './compare/Beside.tsx';
import { followComparison } from './compare/followComparison.ts';
import { Drive } from './drive/Drive.tsx';
import { keepBuild } from './files/autosave.ts';
import { DropZone } from './files/DropZone.tsx';
import { openFirst } from './files/openFiles.ts';
import { followLinks, openFromLink } from './files/openLink.ts';
import { Problems } from './files/Problems.tsx';
import { Dialogs } from './frame/Dialogs.tsx';
import { Foot } from './frame/Foot.tsx';
import { Greeting } from './frame/Greeting.tsx';
import { Nothing } from './frame/Nothing.tsx';
import { Notices } from './frame/Notices.tsx';
import { PhoneTabs } from './frame/PhoneTabs.tsx';
import { TopBar } from './frame/TopBar.tsx';
import { WholePage } from './frame/WholePage.tsx';
import { followKeys } from './keyboard/keys.ts';
import './layout.css';
import './print.css';
import { Stage } from './stage/Stage.tsx';
import { offerHook } from './state/hook.ts';
import { useShop } from './state/shop.ts';
import { followStudy } from './state/study.ts';
import { Walk } from './walk/Walk.tsx';

export function App() {
  useEffect(() => {
    offerHook();
    const endStudy = followStudy();
    const endComparison = followComparison();
    const endKeys = followKeys();
    const endKeeping = keepBuild();
    if (!useShop.getState().document) void openFirst().then(openFromLink);
    const endLinks = followLinks();
    return () => {
      endStudy();
      endComparison();
      endKeys();
      endKeeping();
      endLinks();
    };
  }, []);
  const tab = useShop(shop => shop.look.phoneTab);
  const isAxleAlone = useShop(shop => shop.look.isAxleAlone);
  const isComparing = useShop(shop => shop.comparing !== null);

  return (
    <div className="page" data-tab={tab} data-alone={isAxleAlone} data-comparing={isComparing}>
      <TopBar />
      <div className="strips">
        <Notices />
        <Greeting />
        <Beside part="bar" />
      </div>
      <Drive />
      <main className="main">
        <Stage />
        <WholePage />
        <Nothing />
        {isComparing ? <Beside part="answers" /> : <Answers />}
      </main>
      <Walk />
      <Foot />
      <PhoneTabs />
      <Problems />
      <DropZone />
      <Dialogs />
    </div>
  );
}
