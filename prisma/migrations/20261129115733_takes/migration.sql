-- CreateTable
CREATE TABLE "Take" (
    "id" TEXT NOT NULL,
    "songId" TEXT NOT NULL,
    "ownerId" TEXT NOT NULL,
    "sha256" TEXT NOT NULL,
    "partId" TEXT,
    "startSec" DOUBLE PRECISION NOT NULL,
    "endSec" DOUBLE PRECISION NOT NULL,
    "speed" DOUBLE PRECISION NOT NULL,
    "leadSec" DOUBLE PRECISION NOT NULL,
    "durationSec" DOUBLE PRECISION NOT NULL,
    "delaySec" DOUBLE PRECISION NOT NULL,
    "sampleRateHz" INTEGER NOT NULL,
    "channelCount" INTEGER NOT NULL,
    "madeAt" TIMESTAMP(3) NOT NULL,
    "isShared" BOOLEAN NOT NULL DEFAULT false,
    "judged" JSONB,
    "createdAt" TIMESTAMP(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "Take_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "Take_songId_ownerId_idx" ON "Take"("songId", "ownerId");

-- CreateIndex
CREATE INDEX "Take_sha256_idx" ON "Take"("sha256");

-- AddForeignKey
ALTER TABLE "Take" ADD CONSTRAINT "Take_songId_fkey" FOREIGN KEY ("songId") REFERENCES "Song"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Take" ADD CONSTRAINT "Take_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "User"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Take" ADD CONSTRAINT "Take_sha256_fkey" FOREIGN KEY ("sha256") REFERENCES "Blob"("sha256") ON DELETE RESTRICT ON UPDATE CASCADE;
