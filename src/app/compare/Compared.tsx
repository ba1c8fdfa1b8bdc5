/** Below the axles, while two are compared: what one buys and costs, findings, numbers, maps, charts, ranges, parts. */
import { Tab, TabList, TabPanel, TabProvider } from '@ariakit/react';
import { lazy, type ReactNode, Suspense } from 'react';
import '../answers/Answers.css';
import '../answers/controls.css';
import { act } from '../state/action.ts';
import { useShop } from '../state/shop.ts';
import { Built } from './Built.tsx';
import './Compared.css';
import { COMPARE_SHEETS, type CompareSheet, chooseCompareSheet } from './comparing.ts';
import { FoundOfBoth } from './FoundOfBoth.tsx';
import { HereOfBoth } from './HereOfBoth.tsx';
import { Maps } from './Maps.tsx';
import { Numbers } from './Numbers.tsx';
import { Options } from './Options.tsx';
import { ReachOfBoth } from './ReachOfBoth.tsx';
import { Trade } from './Trade.tsx';

const ChartsOfBoth = lazy(() => import('./ChartsOfBoth.tsx'));

const SHEETS: Record<CompareSheet, readonly [title: string, sheet: ReactNode]> = {
  trade: ['Buys and costs', <Trade key="trade" />],
  findings: ['Findings', <FoundOfBoth key="findings" />],
  numbers: ['Numbers', <Numbers key="numbers" />],
  maps: ['Maps', <Maps key="maps" />],
  charts: ['Charts', <ChartsOfBoth key="charts" />],
  reach: ['Travel', <ReachOfBoth key="reach" />],
  built: ['Parts', <Built key="built" />],
  options: ['Alternatives', <Options key="options" />],
};

const isSheet = (id: unknown): id is CompareSheet => COMPARE_SHEETS.some(each => each === id);

export default function Compared() {
  const sheet = useShop(({ comparing }) => comparing?.sheet ?? 'trade');
  const hasOther = useShop(({ comparing }) => comparing?.other != null);
  const hasOptions = useShop(({ opened }) => (opened?.file.alternatives?.length ?? 0) > 0);
  const [title, panel] = SHEETS[sheet];
  return (
    <div className="answers compared">
      <section className="sheet" aria-label="What differs">
        <TabProvider
          selectedId={sheet}
          setSelectedId={id => isSheet(id) && act(chooseCompareSheet, id)}
        >
          <TabList className="compared-tabs" aria-label="What differs">
            {COMPARE_SHEETS.filter(each => each !== 'options' || hasOptions).map(each => (
              <Tab key={each} id={each} className="sheet-tab">
                {SHEETS[each][0]}
              </Tab>
            ))}
          </TabList>
          <TabPanel className="sheet-panel" tabId={sheet} focusable={false}>
            <h2 className="visually-hidden">{title}</h2>
            {hasOther || sheet === 'options' ? (
              <Suspense fallback={null}>{panel}</Suspense>
            ) : (
              <p className="note compared-note">
                Choose what to compare with: B, in the bar above.
              </p>
            )}
          </TabPanel>
        </TabProvider>
      </section>
      <HereOfBoth />
    </div>
  );
}
