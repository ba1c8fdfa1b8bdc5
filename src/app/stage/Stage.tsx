/** The middle: the leading sentence over the axle, and what the axle is looked at with. */
import { Component, lazy, type ReactNode, Suspense, useState } from 'react';
import { Headline } from './Headline.tsx';
import { PartCard } from './PartCard.tsx';
import { SectionInset } from './SectionInset.tsx';
import './Stage.css';
import { StandsNote } from './StandsNote.tsx';
import { ViewButtons } from './ViewButtons.tsx';

const AxleView = lazy(() => import('./AxleView.tsx'));

/** Whether there is a 3D picture at all: asked before the view is fetched. */
function hasWebGL(): boolean {
  return document.createElement('canvas').getContext('webgl2') !== null;
}

export function Stage() {
  const [isWithout] = useState(() => !hasWebGL());
  return (
    <section className="stage" aria-label="The axle">
      <WithoutPicture isWithout={isWithout}>
        <Suspense fallback={<p className="stage-without note">Drawing the axle …</p>}>
          <AxleView />
        </Suspense>
        <StandsNote />
        <ViewButtons />
        <PartCard />
      </WithoutPicture>
      <Headline />
      <SectionInset />
    </section>
  );
}

interface WithoutPictureProps {
  isWithout: boolean;
  children: ReactNode;
}

/** Without WebGL, or where the view breaks, the page goes on; the stage says so. */
class WithoutPicture extends Component<WithoutPictureProps, { isWithout: boolean }> {
  override state = { isWithout: this.props.isWithout };

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
