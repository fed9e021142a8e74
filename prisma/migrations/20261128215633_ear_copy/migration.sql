-- CreateTable
CREATE TABLE "EarCopy" (
    "recordSha256" TEXT NOT NULL,
    "sha256" TEXT NOT NULL,
    "version" INTEGER NOT NULL,
    "createdAt" TIMESTAMP(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "EarCopy_pkey" PRIMARY KEY ("recordSha256")
);

-- CreateIndex
CREATE INDEX "EarCopy_sha256_idx" ON "EarCopy"("sha256");

-- AddForeignKey
ALTER TABLE "EarCopy" ADD CONSTRAINT "EarCopy_recordSha256_fkey" FOREIGN KEY ("recordSha256") REFERENCES "Blob"("sha256") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "EarCopy" ADD CONSTRAINT "EarCopy_sha256_fkey" FOREIGN KEY ("sha256") REFERENCES "Blob"("sha256") ON DELETE RESTRICT ON UPDATE CASCADE;
