import { useBench } from '../../bench/bench.ts';

/** Fit. */
export default function FitSheet() {
  const bench = useBench();
  return <p>{bench.made.value?.result.print.lay}</p>;
}
