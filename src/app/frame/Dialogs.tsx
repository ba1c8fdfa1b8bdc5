/** What may lie over the page, loaded when it is first wanted. */
import { lazy, Suspense } from 'react';
import { useShop } from '../state/shop.ts';

const Cautions = lazy(() => import('./Cautions.tsx'));
const Assumed = lazy(() => import('./Assumed.tsx'));
const Guide = lazy(() => import('../guide/Guide.tsx'));
const NewBuild = lazy(() => import('../tape/NewBuild.tsx'));
const AddMesh = lazy(() => import('../mesh/AddMesh.tsx'));
const CommandList = lazy(() => import('../keyboard/CommandList.tsx'));

export function Dialogs() {
  const dialog = useShop(shop => shop.look.dialog);
  return (
    <Suspense>
      {dialog === 'cautions' && <Cautions />}
      {dialog === 'assumed' && <Assumed />}
      {dialog === 'commands' && <CommandList />}
      {dialog === 'newBuild' && <NewBuild />}
      {dialog === 'guide' && <Guide />}
      {dialog === 'addMesh' && <AddMesh />}
    </Suspense>
  );
}
