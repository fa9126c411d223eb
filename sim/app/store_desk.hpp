#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "sim/app/chunk_desk.hpp"
#include "sim/app/progress.hpp"
#include "viz/study/study_store.hpp"

namespace drumlin::app {

/// The desk of who holds the study's folder: hands out the chunks that it lacks, keeps those that
/// are done, and says how far all is.
class StoreDesk : public ChunkDesk {
 public:
  StoreDesk(viz::StudyStore& store, ProgressLine& line);

  [[nodiscard]] std::optional<std::uint64_t> next() override;
  /// @throws InputError if the chunk cannot be kept.
  void take(DoneChunk chunk) override;

  /// @throws sim::Stopped saying what is kept, unless every chunk is.
  void expect_all_kept() const;

  /// "7 of 40 parts of this study are in DIR".
  [[nodiscard]] std::string kept_text() const;

 private:
  viz::StudyStore& store_;
  ProgressLine& line_;
  std::vector<std::uint64_t> missing_;
  std::size_t given_ = 0;
  std::size_t kept_ = 0;
};

}  // namespace drumlin::app
