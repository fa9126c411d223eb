#include "sim/sweep/workers.hpp"

#include <tbb/blocked_range.h>
#include <tbb/enumerable_thread_specific.h>
#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

namespace drumlin::sim {
namespace {

/// Drums kept per station and thread: those of a small grid over cover and speed.
constexpr std::size_t most_drums = 32;

}  // namespace

struct Workers::Parts {
  tbb::task_arena arena;
  tbb::enumerable_thread_specific<fast::Drums> drums{[] { return fast::Drums(most_drums); }};

  explicit Parts(unsigned threads)
      : arena(threads == 0 ? tbb::task_arena::automatic : static_cast<int>(threads)) {}
};

Workers::Workers(unsigned threads) : parts_(std::make_unique<Parts>(threads)) {}
Workers::~Workers() = default;

void Workers::each(std::size_t count, std::size_t at_a_time,
                   const std::function<void(std::size_t, fast::Drums&)>& work) {
  parts_->arena.execute([&] {
    tbb::parallel_for(tbb::blocked_range<std::size_t>(0, count, at_a_time),
                      [&](const tbb::blocked_range<std::size_t>& some) {
                        fast::Drums& drums = parts_->drums.local();
                        for (std::size_t i = some.begin(); i != some.end(); ++i)
                          work(i, drums);
                      });
  });
}

}  // namespace drumlin::sim
