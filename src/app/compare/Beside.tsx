/** What a comparison puts on the page, fetched when one is first wanted. */
import { lazy, Suspense } from 'react';
import { useShop } from '../state/shop.ts';

const CompareBar = lazy(() => import('./CompareBar.tsx'));
const Compared = lazy(() => import('./Compared.tsx'));

export function Beside({ part }: { part: 'bar' | 'answers' }) {
  const isComparing = useShop(shop => shop.comparing !== null);
  if (!isComparing) return null;
  return <Suspense>{part === 'bar' ? <CompareBar /> : <Compared />}</Suspense>;
}
