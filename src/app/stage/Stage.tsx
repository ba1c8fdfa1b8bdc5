/** The middle: the leading sentence over the axle, and what the axle is looked at with. */
import { Component, lazy, type ReactNode, Suspense } from 'react';
import { Headline } from './Headline.tsx';
import { PartCard } from './PartCard.tsx';
import { SectionInset } from './SectionInset.tsx';
import './Stage.css';
import { StandsNote } from './StandsNote.tsx';
import { ViewButtons } from './ViewButtons.tsx';

const AxleView = lazy(() => import('./AxleView.tsx'));

export function Stage() {
  return (
    <section className="stage" aria-label="The axle">
      <WithoutPicture>
        <Suspense fallback={null}>
          <AxleView />
        </Suspense>
        <div className="stage-foot">
          <StandsNote />
          <ViewButtons />
        </div>
        <PartCard />
      </WithoutPicture>
      <Headline />
      <SectionInset />
    </section>
  );
}

/** Without WebGL the page goes on; the stage says so. */
class WithoutPicture extends Component<{ children: ReactNode }, { isWithout: boolean }> {
  override state = { isWithout: false };

  static getDerivedStateFromError() {
    return { isWithout: true };
  }

  override render() {
    if (!this.state.isWithout) return this.props.children;
    return (
      <p className="stage-without" role="status">
        This browser draws no 3D picture (it has no WebGL). Everything else works: the travel map,
        the findings, the section and the numbers.
      </p>
    );
  }
}
