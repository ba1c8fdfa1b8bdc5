/** The top of the page: what is open, and what the worker is at. */
import { useShop } from '../state/shop.ts';

export function TopBar() {
  const name = useShop(shop => shop.opened?.build.name ?? '');
  const working = useShop(shop => shop.results.working);
  return (
    <header className="top">
      Axlewalk {name} {working ? `${working.what} ${working.done}/${working.of}` : ''}
    </header>
  );
}
