/** Asks the worker for the walk that is chosen, where the study does not tell it by itself. */
import { act } from '../state/action.ts';
import { walkTold } from '../state/play.ts';
import { useShop } from '../state/shop.ts';
import { theWorkshop } from '../state/study.ts';

/** Follows the state from now on; ends with what is returned. */
export function followWalk(): () => void {
  const ask = async (): Promise<void> => {
    const { play, results, shown } = useShop.getState();
    const { walk } = play;
    const { generation } = results;
    if (walk === 'shop' || !results.map) return;
    const strip = await theWorkshop().strip(walk, [shown.handle.left, shown.handle.right]);
    const now = useShop.getState();
    if (!strip || now.play.walk !== walk || now.results.generation !== generation) return;
    act(walkTold, { walk, strip });
  };
  return useShop.subscribe(({ play, results }, before) => {
    const isOther = play.walk !== before.play.walk;
    // a study's first map says that the worker can answer
    const isReady = results.map !== null && before.results.map === null;
    if (isOther || isReady) void ask();
  });
}

/** Walks on in every frame while it is played; ends with what is returned. */
export function followPlay(step: (seconds: number) => void): () => void {
  let frame = 0;
  let last = 0;
  const walk = (now: number): void => {
    frame = requestAnimationFrame(walk);
    // after a pause of the page it goes on where it was
    if (last > 0) step(Math.min(0.1, (now - last) / 1000));
    last = now;
  };
  const set = (isPlaying: boolean): void => {
    cancelAnimationFrame(frame);
    last = 0;
    if (isPlaying) frame = requestAnimationFrame(walk);
  };
  set(useShop.getState().play.isPlaying);
  const end = useShop.subscribe(shop => shop.play.isPlaying, set);
  return () => {
    cancelAnimationFrame(frame);
    end();
  };
}
