import { useBench } from '../bench/bench.ts';

/** The part in the round. */
export default function SolidView() {
  const bench = useBench();
  return <p>{bench.made.value?.result.print.triangles ?? ''} triangles</p>;
}
