/**
 * A canvas as large as its box, sharp on any screen. It is painted in the next frame after `paint` changes, after
 * its size does, once the page's letters are there, and when its `repaint` is called; for paper at once.
 */
import { type Ref, useEffect, useImperativeHandle, useRef } from 'react';

/** Dots of paper to a pixel of the screen. */
const PAPER_RATIO = 3;

export type Paint = (ctx: CanvasRenderingContext2D, width: number, height: number) => void;

export interface SurfaceHandle {
  /** Paints in the next frame; asked for several times, once. */
  repaint(): void;
}

export interface SurfaceProps {
  className?: string;
  paint: Paint;
  handle?: Ref<SurfaceHandle>;
}

export function Surface({ className, paint, handle }: SurfaceProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const painter = useRef<Painter | null>(null);
  useImperativeHandle(handle, () => ({ repaint: () => painter.current?.repaint() }), []);
  useEffect(() => {
    if (!canvas.current) return;
    const own = new Painter(canvas.current);
    painter.current = own;
    return () => {
      own.end();
      painter.current = null;
    };
  }, []);
  useEffect(() => {
    if (painter.current) painter.current.paint = paint;
    painter.current?.repaint();
  }, [paint]);
  return <canvas ref={canvas} className={className} />;
}

class Painter {
  paint: Paint = () => {};
  readonly #canvas: HTMLCanvasElement;
  readonly #ctx: CanvasRenderingContext2D | null;
  readonly #watch: ResizeObserver;
  #frame = 0;
  #isGone = false;

  constructor(canvas: HTMLCanvasElement) {
    this.#canvas = canvas;
    this.#ctx = canvas.getContext('2d');
    this.#watch = new ResizeObserver(() => this.repaint());
    this.#watch.observe(canvas);
    void document.fonts.ready.then(() => this.repaint());
  }

  repaint(): void {
    if (document.documentElement.hasAttribute('data-paper')) this.#now();
    else if (this.#frame === 0 && !this.#isGone) this.#frame = requestAnimationFrame(this.#now);
  }

  end(): void {
    this.#isGone = true;
    this.#watch.disconnect();
    cancelAnimationFrame(this.#frame);
  }

  readonly #now = (): void => {
    this.#frame = 0;
    const canvas = this.#canvas;
    const width = canvas.clientWidth;
    const height = canvas.clientHeight;
    if (!this.#ctx || width === 0 || height === 0) return;
    const isPaper = document.documentElement.hasAttribute('data-paper');
    const ratio = isPaper ? PAPER_RATIO : window.devicePixelRatio;
    const [w, h] = [Math.round(width * ratio), Math.round(height * ratio)];
    if (canvas.width !== w || canvas.height !== h) {
      canvas.width = w;
      canvas.height = h;
    }
    if (isPaper) {
      // dots, not strokes: a printer is not given what strokes have painted within `beforeprint`
      const sheet = document.createElement('canvas');
      sheet.width = w;
      sheet.height = h;
      const ctx = sheet.getContext('2d', { willReadFrequently: true });
      if (!ctx) return;
      this.#fill(ctx, ratio, width, height);
      this.#ctx.putImageData(ctx.getImageData(0, 0, w, h), 0, 0);
    } else this.#fill(this.#ctx, ratio, width, height);
  };

  #fill(ctx: CanvasRenderingContext2D, ratio: number, width: number, height: number): void {
    ctx.setTransform(ratio, 0, 0, ratio, 0, 0);
    ctx.clearRect(0, 0, width, height);
    this.paint(ctx, width, height);
  }
}
