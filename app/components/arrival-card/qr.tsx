import QRCode from "qrcode";

/** An address as a QR code, drawn on the server. */
export function QrCode({ address, label, className }: { readonly address: string; readonly label: string; readonly className?: string | undefined }) {
  const { modules: { size, data } } = QRCode.create(address, { errorCorrectionLevel: "M" });
  const dark = Array.from({ length: size * size }, (_, i) => i).filter((i) => data[i]);
  // Four modules of quiet on every side, as the standard asks (ISO/IEC 18004).
  return (
    <svg className={className} viewBox={`-4 -4 ${size + 8} ${size + 8}`} role="img" aria-label={label} shapeRendering="crispEdges">
      <rect x={-4} y={-4} width={size + 8} height={size + 8} fill="#fff" />
      <path d={dark.map((i) => `M${i % size} ${Math.floor(i / size)}h1v1h-1z`).join("")} fill="#000" />
    </svg>
  );
}
