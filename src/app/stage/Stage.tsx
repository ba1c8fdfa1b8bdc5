/** The middle: the leading sentence over the axle. */
import { Headline } from './Headline.tsx';
import { SectionInset } from './SectionInset.tsx';

export function Stage() {
  return (
    <section className="stage" aria-label="The axle">
      <Headline />
      <SectionInset />
    </section>
  );
}
