/** Other builds of this one: whole variants, and alternatives for single parts of which variants choose. */
import { useState } from 'react';
import { useShop } from '../../state/shop.ts';
import { AlternativeBench } from './AlternativeBench.tsx';
import { VariantBench } from './VariantBench.tsx';
import './Variations.css';

export function Variations() {
  const [view, setView] = useState<'variants' | 'alternatives'>('variants');
  const variants = useShop(shop => shop.opened?.file.variants?.length ?? 0);
  const alternatives = useShop(shop => shop.opened?.file.alternatives?.length ?? 0);
  return (
    <div className="variations">
      <fieldset className="views" aria-label="Which">
        <button
          type="button"
          aria-pressed={view === 'variants'}
          onClick={() => setView('variants')}
        >
          Of the whole build<small>{variants}</small>
        </button>
        <button
          type="button"
          aria-pressed={view === 'alternatives'}
          onClick={() => setView('alternatives')}
        >
          Alternatives for a part<small>{alternatives}</small>
        </button>
      </fieldset>
      {view === 'variants' ? <VariantBench /> : <AlternativeBench />}
    </div>
  );
}
