import { BedSection } from './BedSection.tsx';
import { CouponSection } from './CouponSection.tsx';
import { LadderSection } from './LadderSection.tsx';
import { PrinterSection } from './PrinterSection.tsx';
import { TakeSection } from './TakeSection.tsx';
import './print.css';

/** Sheet 3: from the job to the bed. What is printed now first, then what makes the next print better: the printer, its
 *  coupon, a ladder. */
export default function PrintSheet() {
  return (
    <div class="print-sheet">
      <BedSection />
      <TakeSection />
      <PrinterSection />
      <CouponSection />
      <LadderSection />
    </div>
  );
}
