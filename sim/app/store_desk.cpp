#include "sim/app/store_desk.hpp"

#include <fmt/format.h>

#include "sim/app/sweep_parts.hpp"
#include "sim/app/user_fault.hpp"
#include "sim/numerics/error.hpp"

namespace drumlin::app {

StoreDesk::StoreDesk(viz::StudyStore& store, ProgressLine& line)
    : store_(store), line_(line), missing_(store.missing()) {}

std::optional<std::uint64_t> StoreDesk::next() {
  if (given_ == missing_.size()) return std::nullopt;
  return missing_[given_++];
}

void StoreDesk::take(DoneChunk chunk) {
  try {
    store_.keep(chunk.number, chunk.file);
    viz::add_times(store_.folder(), chunk.times);
  } catch (const std::runtime_error& error) {
    throw InputError(
        fmt::format("{}; {}; once there is room, the same command with --resume goes "
                    "on",
                    error.what(), kept_text()));
  }
  ++kept_;
  const double share = static_cast<double>(kept_) / static_cast<double>(missing_.size());
  line_.show(rows_share * share, fmt::format("rows, {} of {} parts", kept_, missing_.size()));
}

std::string StoreDesk::kept_text() const {
  const std::uint64_t all = store_.owned();
  return fmt::format("{} of {} parts of this study are in {}", all - missing_.size() + kept_, all,
                     store_.folder().string());
}

void StoreDesk::expect_all_kept() const {
  if (kept_ < missing_.size())
    throw sim::Stopped(
        fmt::format("stopped on request; {}; the same command with --resume goes on", kept_text()));
}

}  // namespace drumlin::app
