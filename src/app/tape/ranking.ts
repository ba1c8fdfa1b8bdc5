/** Asks the worker what is worth taping next, once the axle that is shown has been walked. */
import { act } from '../state/action.ts';
import { tell } from '../state/open.ts';
import { useShop } from '../state/shop.ts';
import { theWorkshop } from '../state/study.ts';
import { theStarter } from './starter.ts';
import { useTape } from './tapeState.ts';

/** Asks again with each change of the build from now on; ends with what is returned. */
export function followRanking(): () => void {
  void rank();
  return useShop.subscribe(
    ({ results }) => (results.isFinal ? results.generation : null),
    generation => {
      if (generation !== null) void rank();
    },
  );
}

async function rank(): Promise<void> {
  const { opened, results, trial } = useShop.getState();
  const { generation, isFinal } = results;
  if (!opened || !isFinal || trial || useTape.getState().settled?.generation === generation) return;
  const isStill = (): boolean => useShop.getState().results.generation === generation;
  useTape.setState({ isRanking: true });
  try {
    const starter = await theStarter();
    const slopes = await starter.slopesOf(opened.file, opened.build, isStill);
    const told = slopes && (await theWorkshop().nextMeasurements(slopes));
    if (told && isStill()) useTape.setState({ settled: { generation, told } });
  } catch (error) {
    console.info(error);
    act(
      tell,
      'What to tape next could not be found out. Change something, or open the build again.',
    );
  } finally {
    if (isStill()) useTape.setState({ isRanking: false });
  }
}
