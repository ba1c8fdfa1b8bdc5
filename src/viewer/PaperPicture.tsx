/**
 * The picture on paper. A browser prints no drawing of the graphics card that it has not kept, so before printing the
 * scene is drawn once more and copied; the marks over it keep their place on it at any size.
 */
import { flushSync, useThree } from '@react-three/fiber';
import { type RefObject, useEffect } from 'react';

export interface PaperPictureProps {
  marks: RefObject<SVGSVGElement | null>;
}

export function PaperPicture({ marks }: PaperPictureProps) {
  const gl = useThree(state => state.gl);
  const scene = useThree(state => state.scene);
  const camera = useThree(state => state.camera);
  useEffect(() => {
    const paper = document.createElement('canvas');
    paper.className = 'view-paper';
    const gone = new AbortController();
    const { signal } = gone;
    const copy = (): void => {
      const { domElement } = gl;
      // the page is light by now: so are the materials once this is through
      flushSync(() => {});
      gl.render(scene, camera);
      paper.width = domElement.width;
      paper.height = domElement.height;
      paper.getContext('2d')?.drawImage(domElement, 0, 0);
      domElement.after(paper);
      const { clientWidth, clientHeight } = domElement;
      marks.current?.setAttribute('viewBox', `0 0 ${clientWidth} ${clientHeight}`);
    };
    const putAway = (): void => {
      paper.remove();
      marks.current?.removeAttribute('viewBox');
    };
    window.addEventListener('beforeprint', copy, { signal });
    window.addEventListener('afterprint', putAway, { signal });
    return () => {
      gone.abort();
      putAway();
    };
  }, [gl, scene, camera, marks]);
  return null;
}
