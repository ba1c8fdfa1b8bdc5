/** Files dropped anywhere on the page are opened; while one is held over it, the page says so. */
import { useEffect, useState } from 'react';
import { useShop } from '../state/shop.ts';
import './DropZone.css';
import { openFiles } from './openFiles.ts';

const carriesFiles = (event: DragEvent): boolean =>
  event.dataTransfer?.types.includes('Files') ?? false;

export function DropZone() {
  const [isOver, setOver] = useState(false);
  const name = useShop(shop => shop.opened?.build.name ?? null);

  useEffect(() => {
    const gone = new AbortController();
    const { signal } = gone;
    // Entering an inner element comes before leaving the outer one: a count tells when all are left.
    let depth = 0;
    const hold = (event: DragEvent): void => {
      if (!carriesFiles(event)) return;
      event.preventDefault();
      if (event.type === 'dragenter') setOver(++depth > 0);
    };
    const leave = (event: DragEvent): void => {
      if (carriesFiles(event)) setOver(--depth > 0);
    };
    const drop = (event: DragEvent): void => {
      if (!carriesFiles(event)) return;
      event.preventDefault();
      depth = 0;
      setOver(false);
      void openFiles([...(event.dataTransfer?.files ?? [])]);
    };
    window.addEventListener('dragenter', hold, { signal });
    window.addEventListener('dragover', hold, { signal });
    window.addEventListener('dragleave', leave, { signal });
    window.addEventListener('drop', drop, { signal });
    return () => gone.abort();
  }, []);

  if (!isOver) return null;
  return (
    <div className="drop-over" role="status">
      <div>
        <p className="lead">Drop it here.</p>
        <p>
          A build file opens.{' '}
          {name && `Mesh files (STL, OBJ, GLB) go to ${name}, or are added to it.`}
        </p>
      </div>
    </div>
  );
}
