/** Below the axle: findings, charts and parts, beside the numbers at the handle. */
import { Tab, TabList, TabPanel, TabProvider } from '@ariakit/react';
import { lazy, Suspense } from 'react';
import { act } from '../state/action.ts';
import { setLook } from '../state/look.ts';
import { type Sheet, useShop } from '../state/shop.ts';
import './Answers.css';
import './controls.css';
import { Findings } from './findings/Findings.tsx';
import { Here } from './here/Here.tsx';

const Charts = lazy(() => import('./charts/Charts.tsx'));
const Parts = lazy(() => import('./parts/Parts.tsx'));
const Tape = lazy(() => import('../tape/Tape.tsx'));

const isSheet = (id: unknown): id is Sheet =>
  id === 'findings' || id === 'charts' || id === 'parts' || id === 'tape';

const TITLES: Record<Sheet, string> = {
  findings: 'Findings',
  charts: 'Charts',
  parts: 'Parts',
  tape: 'Tape',
};

export function Answers() {
  const sheet = useShop(shop => shop.look.sheet);
  const count = useShop(shop => shop.results.findings.length);
  return (
    <div className="answers">
      <section className="sheet" aria-label="Answers">
        <TabProvider
          selectedId={sheet}
          setSelectedId={id => isSheet(id) && act(setLook, { sheet: id })}
        >
          <TabList className="sheet-tabs" aria-label="Answers">
            <Tab id="findings" className="sheet-tab">
              Findings <span className="sheet-count">{count > 0 ? count : ''}</span>
            </Tab>
            <Tab id="charts" className="sheet-tab">
              Charts
            </Tab>
            <Tab id="parts" className="sheet-tab">
              Parts
            </Tab>
            <Tab id="tape" className="sheet-tab">
              Tape
            </Tab>
          </TabList>
          <TabPanel className="sheet-panel" tabId={sheet} focusable={false}>
            <h2 className="visually-hidden">{TITLES[sheet]}</h2>
            {sheet === 'findings' ? (
              <Findings />
            ) : (
              <Suspense fallback={null}>
                {sheet === 'charts' ? <Charts /> : sheet === 'parts' ? <Parts /> : <Tape />}
              </Suspense>
            )}
          </TabPanel>
        </TabProvider>
      </section>
      <Here />
    </div>
  );
}
